import { expect, it } from 'vitest';
import { compared, comparedInset, judgedHulls } from './volumes';

const allowed = (wantM3: number): number => 0.002 * wantM3 + 5e-5;
const upTo = (count: number): number[] => Array.from({ length: count }, (_, k) => k + 1);

// Derived by another way: manifold-3d on the same interpolant with sixteen times as many facets.
it('200 prisms of all views, many turned, have the volume that a library of solids gives them', () => {
  const rows = compared(judgedHulls(), upTo(200));
  for (const { what, gotM3, wantM3 } of rows)
    expect(Math.abs(gotM3 - wantM3), `${what}: got ${gotM3}, want ${wantM3}`).toBeLessThan(allowed(wantM3));
});

it('24 prisms lose shell and lining as points near the skin do', () => {
  const seeds = upTo(24).map((k) => 500 + k);
  for (const { what, gotM3, wantM3 } of comparedInset(judgedHulls(), { shellM: 0.015, liningM: 0.03 }, seeds, 72))
    expect(Math.abs(gotM3 - wantM3), `${what}: got ${gotM3}, want ${wantM3}`).toBeLessThan(allowed(wantM3));
});
