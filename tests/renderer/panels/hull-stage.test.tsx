// @vitest-environment happy-dom
import { readBoat } from '@core/boat/read';
import { arrangement } from '@core/boat/schema/arrangement';
import { part } from '@core/boat/schema/things';
import type { Report } from '@core/engine/report';
import { referenceAttitude } from '@core/shape/hull/attitude';
import { hydrostatics } from '@core/shape/hull/hydrostatics';
import { valueAt } from '@renderer/charts/LineChart';
import { HullStage } from '@renderer/panels/stages/HullStage';
import { useSections } from '@renderer/sections/store';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { hullOf } from '@renderer/store/derived';
import { heeledRow } from '@renderer/store/hydrostatics';
import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { emptyBoat } from '../../support/boats';

/** A box of 10 x 3 m with square ends, keel at z = -0.5, sheer at 1 m: every figure by hand. */
const section = [
  [0, -0.5],
  [1.5, -0.5],
  [1.5, 1],
];
const pontoon = {
  ...emptyBoat(),
  hull: {
    stations: { a: { xM: 0, points: section, knuckles: [1] }, b: { xM: 10, points: section, knuckles: [1] } },
  },
};

beforeEach(() => {
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  const read = readBoat(JSON.stringify(pontoon));
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join());
  useApp.getState().open(read.boat, { fileName: 'pontoon.boat.json', token: null, saved: true });
});
afterEach(cleanup);

const boatNow = () => {
  const { boat } = useApp.getState();
  if (!boat) throw new Error('expected a boat');
  return boat;
};
function Stage() {
  const boat = useApp((state) => state.boat);
  return boat ? <HullStage boat={boat} /> : null;
}
const fact = (name: string): string | null => screen.getByText(name).nextElementSibling?.textContent ?? null;
const type = (label: string, text: string): void => {
  const field = screen.getByLabelText(label);
  fireEvent.change(field, { target: { value: text } });
  fireEvent.keyDown(field, { key: 'Enter' });
};

describe('the hull stage', () => {
  it('shows what the lines displace (derived: 10 x 3 x 0.5 m in salt water, 15.38 t)', () => {
    render(<Stage />);
    expect(fact('Displacement, from the lines')).toBe('15.38 t');
    // 30 m2 of waterplane: 1025 x 30 x 0.01 kg for each centimetre.
    expect(fact('Sinks per cm')).toBe('308 kg');
  });

  it('marks the figures as those from before while a point of a station is held', () => {
    render(<Stage />);
    const shown = (): Element | null | undefined =>
      screen.getByText('Displacement, from the lines').nextElementSibling?.firstElementChild;
    expect(shown()?.className).toBe('');
    act(() => useSections.setState({ held: { id: 'a', index: 1, points: [] } }));
    expect(shown()?.className).toBe('stale');
    expect(screen.getByText('until you let go')).toBeTruthy();
    act(() => useSections.setState({ held: null }));
    expect(shown()?.className).toBe('');
  });

  it('asks for nothing but a hull before there is one, and leads to the ways in', () => {
    act(() => {
      useApp.getState().edit('No hull', (draft) => {
        delete draft.hull;
      });
      useSections.setState({ board: 'drawing' });
    });
    render(<Stage />);
    expect(screen.getAllByRole('heading').map(({ textContent }) => textContent)).toEqual(['Hull']);
    expect(screen.queryAllByRole('textbox')).toEqual([]);
    fireEvent.click(screen.getByRole('button', { name: 'Ways to a hull' }));
    expect(useSections.getState().board).toBe('sections');
  });

  it('heels to both sides with the displacement kept, and tells the rail on the low side', () => {
    render(<Stage />);
    const slider = screen.getByLabelText('Heel on the drawing, degrees to starboard');
    for (const [deg, side] of [
      [20, 'Starboard'],
      [-20, 'Port'],
    ] as const) {
      fireEvent.change(slider, { target: { value: String(deg) } });
      // Derived: half a section of 1.5 m2 under water. tan 20 x 1.5 = 0.546 m is more than the draught, so the high bilge comes
      // out and a triangle of height h is wet: h^2 / (2 tan 20) = 1.5, h = 1.0450 m up the low side of 1.5 m. The rail stands
      // (1.5 - 1.0450) cos 20 = 0.4276 m above the water, and the centreline has risen by 0.5 + 0.5460 - 1.0450 = 1 mm.
      expect(fact(`${side} rail above water`)).toBe('428 mm');
      expect(fact('Rises at the centreline')).toBe('1 mm');
      expect(heeledRow(boatNow(), { up: [0, 0, 1], levelM: 0 }, deg)?.displacementKg).toBeCloseTo(15375, 0);
      expect(slider.getAttribute('aria-valuetext')).toBe(`20 degrees, ${side.toLowerCase()} side down`);
    }
  });

  it('draws curves by draught that agree with the hull: displacement is linear on a box (derived)', async () => {
    render(<Stage />);
    const chart = await screen.findByRole('img', { name: /^Displacement, t/ }, { timeout: 20_000 });
    expect(chart.getAttribute('aria-label')).toContain('Displacement 15.4');
    expect(await screen.findByRole('img', { name: /KB above the keel and BM, m/ })).toBeTruthy();
    fireEvent.change(screen.getByLabelText('Draught that the curves are read at, metres'), { target: { value: '1' } });
    expect(chart.getAttribute('aria-label')).toMatch(/Displacement 30\.[78]/);
    fireEvent.click(screen.getByRole('button', { name: 'Back to the present draught' }));
    expect(chart.getAttribute('aria-label')).toContain('Displacement 15.4');
  });

  it('takes freeboards at the usual places of the deck edge, and names the one that is misread', () => {
    render(<Stage />);
    for (let i = 0; i < 6; i++) fireEvent.click(screen.getByRole('button', { name: 'Add a freeboard' }));
    const table = screen.getByRole('table', { name: 'Measured freeboards' });
    expect(within(table).getAllByRole('row')).toHaveLength(7);
    expect(boatNow().reference.freeboards['port-side']?.at).toEqual([5, 1.5, 1]);
    type('Freeboard at starboard-quarter', '1.2 m');
    expect(boatNow().reference.freeboards['starboard-quarter']?.freeboardM).toBe(1.2);
    expect(screen.getByText(/starboard quarter is off by 200 mm against the others: measure it again/)).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: 'Remove starboard-quarter' }));
    expect(screen.queryByText(/measure it again/)).toBeNull();
  });

  it('says when the attitude is computed from the weights, and what would be better', () => {
    render(<Stage />);
    type('Displacement', '12.3 t');
    expect(boatNow().weights?.displacementKg).toBe(12300);
    const attitude = referenceAttitude(boatNow(), hullOf(boatNow()));
    expect(attitude.source).toBe('weights');
    act(() => {
      const report: Partial<Report> = { attitude };
      useApp.setState({ report: report as Report });
    });
    expect(fact('Taken from')).toBe('the weights: computed, not measured');
    // 12300 kg float on 30 m2 at 0.4 m: 100 mm higher than drawn.
    expect(fact('Higher than drawn')).toBe('100 mm');
    const surface = hullOf(boatNow());
    expect(surface && hydrostatics(surface, attitude).volumeM3).toBeCloseTo(12, 6);
  });

  it('tells trim from what is placed, and of list what must be entered next', () => {
    act(() => {
      useApp.getState().edit('Part', (draft) => {
        draft.parts.ballast = {
          ...part.parse({
            name: 'Ballast',
            kind: 'other',
            shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
            massKg: 307.5,
          }),
        };
        draft.arrangements.one = { ...arrangement.parse({ name: 'One', places: { ballast: { at: [6, -0.5, 0] } } }) };
        draft.currentArrangement = 'one';
      });
    });
    render(<Stage />);
    // 307.5 kg on 30 m2 of salt water: 10 mm. 1 m forward of the middle: 307.5 / 15375 / BML x L, BML = 10^2 / 12 / 0.5 = 16.67 m.
    expect(fact('Sinks by')).toBe('10 mm');
    expect(fact('Trims by the bow')).toBe('12 mm, 0.07\u00b0');
    expect(fact('Lists to starboard')).toBe('cannot tell');
    expect(screen.getByText(/^Cannot tell yet. Enter next: The height of the centre of gravity/)).toBeTruthy();
    type('Centre of gravity, height z', '200 mm');
    // BM = 3^2 / 12 / 0.5 = 1.5 m, buoyancy at -0.25: GM = 1.05 m; righting 15375 x 1.05 + 307.5 x 1.25, heeling 307.5 x 0.5.
    expect(fact('Lists to starboard')).toBe('0.5\u00b0');
    expect(screen.queryByText(/^Cannot tell yet/)).toBeNull();
  });

  it('clears a weight with an empty entry: what is not known is not assumed', () => {
    render(<Stage />);
    type('Roll period', '4.2');
    expect(boatNow().weights?.rollPeriodS).toBe(4.2);
    type('Roll period', '');
    expect(boatNow().weights?.rollPeriodS).toBeUndefined();
  });
});

describe('a line read off', () => {
  it('lies between its points and nowhere beyond them', () => {
    const points = [
      [0, 1],
      [2, 3],
    ] as const;
    expect(valueAt(points, 0.5)).toBeCloseTo(1.5, 12);
    expect(valueAt(points, 2.1)).toBeNull();
    expect(valueAt([], 0)).toBeNull();
  });
});
