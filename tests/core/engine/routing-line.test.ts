import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { readBoat } from '@core/boat/read';
import type { Boat, LineKind } from '@core/boat/schema/boat';
import { HOLE_CLEARANCE_M, holeDiameter, type LineFacts, routingLine, usableLength } from '@core/engine/routing-line';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

const boat: Boat = (() => {
  const result = readBoat(JSON.stringify(threeLockers()));
  if (!result.ok) throw new Error('unreadable');
  return result.boat;
})();
const present = <T>(value: T | undefined): T => {
  if (value === undefined) throw new Error('missing');
  return value;
};
const rounded = (point: readonly number[]): readonly number[] =>
  point.map((value) => Math.round(value * 1e9) / 1e9 + 0);
const level = { yawDeg: 0, pitchDeg: 0, rollDeg: 0 };

function factsOf(lineId: string, kindId: string, more: Partial<LineFacts> = {}): LineFacts {
  return {
    id: lineId,
    line: present(boat.lines[lineId]),
    kind: present(LINE_KINDS[kindId]),
    from: { thing: present(boat.parts.strainer), pose: { at: [1.5, 0, 0], ...level } },
    to: { thing: present(boat.parts.pump), pose: { at: [2.6, 0.3, -0.2], ...level, yawDeg: 90 } },
    suction: true,
    clipPoints: [],
    forbiddenCompartments: [],
    wishes: null,
    ...more,
  };
}

const asked = (facts: LineFacts) => {
  const wish = routingLine(facts);
  if (wish.outcome !== 'line') throw new Error(wish.reason.kind);
  return wish.line;
};

describe('what is asked of the router', () => {
  it('bends the centre line half a diameter wider than the inside of the bend', () => {
    // Published: EN 853 3/8 in, 130 mm to the inside; derived: 18.1 mm outside, so 139.05 mm on the centre line.
    expect(asked(factsOf('raw-2', 'hose-pressure-10')).bendRadiusM).toBeCloseTo(0.13905, 9);
    // A tube is measured on its centre line: 8 x 6.35 mm.
    expect(asked(factsOf('raw-2', 'tube-product-6')).bendRadiusM).toBeCloseTo(0.0508, 9);
  });

  it('puts the leads where the ports are, turned with their things', () => {
    const { from, to } = asked(factsOf('raw-2', 'hose-suction-19'));
    expect(from.at).toEqual([1.565, 0, 0.06]);
    expect(from.direction).toEqual([1, 0, 0]);
    // Derived: the port at [-0.2, 0.05, 0] of a pump that is yawed 90 degrees lies at [-0.05, -0.2, 0] from its centre.
    expect(rounded(to.at)).toEqual([2.55, 0.1, -0.2]);
    expect(rounded(to.direction)).toEqual([0, -1, 0]);
  });

  it('passes a crimped end through the holes, but fits a barb after the hose is through', () => {
    const line = present(boat.lines['raw-2']);
    const pressure = present(LINE_KINDS['hose-pressure-10']);
    const suction = present(LINE_KINDS['hose-suction-19']);
    expect(holeDiameter(line, pressure)).toBeCloseTo(0.025 + 2 * HOLE_CLEARANCE_M, 12);
    expect(holeDiameter(line, suction)).toBeCloseTo(0.026 + 2 * HOLE_CLEARANCE_M, 12);
    const elbow = { angleDeg: 90, swivel: false, crimped: true, diameterM: 0.052 };
    // Of two crimped ends the smaller leads; a larger one at both ends has to pass.
    expect(holeDiameter({ ...line, ends: { to: elbow } }, pressure)).toBeCloseTo(0.025 + 2 * HOLE_CLEARANCE_M, 12);
    expect(asked(factsOf('raw-2', 'hose-pressure-10', { line: { ...line, ends: { to: elbow } } })).feed).toMatchObject({
      fedFrom: 'to',
      rigidM: 0.07,
      radiusM: 0.0125,
    });
    const both = { from: elbow, to: elbow };
    expect(holeDiameter({ ...line, ends: both }, pressure)).toBeCloseTo(0.052 + 2 * HOLE_CLEARANCE_M, 12);
  });

  it('turns an elbow towards the other end of the line', () => {
    const ends = { from: { angleDeg: 90, swivel: false, crimped: false } };
    const line = { ...present(boat.lines['raw-2']), ends };
    const { from, to } = asked(factsOf('raw-2', 'hose-suction-19', { line }));
    expect(from.direction[0]).toBeCloseTo(0, 12);
    const sideways = [0, to.at[1] - from.at[1], to.at[2] - from.at[2]];
    const size = Math.hypot(...sideways);
    expect(from.direction[1]).toBeCloseTo((sideways[1] ?? 0) / size, 12);
    expect(from.direction[2]).toBeCloseTo((sideways[2] ?? 0) / size, 12);
  });

  it('limits a supplied hose that must not be cut to its length less the reserve', () => {
    const line = present(boat.lines['raw-2']);
    const supplied = { lengthM: 1.5, spareM: 0.05, mayCut: false };
    expect(usableLength({ ...line, supplied })).toBeCloseTo(1.45, 12);
    expect(usableLength({ ...line, supplied: { ...supplied, mayCut: true } })).toBeNull();
    expect(usableLength(line)).toBeNull();
  });

  it('says which end is not there', () => {
    const { from } = factsOf('raw-2', 'hose-suction-19');
    const wish = routingLine(factsOf('raw-2', 'hose-suction-19', { from: { ...from, pose: null } }));
    expect(wish).toMatchObject({ outcome: 'blocked', reason: { kind: 'notPlaced', blocker: 'strainer' } });
  });

  it('gives every kind of the catalogue an end that is no thinner than its hose', () => {
    for (const [id, kind] of Object.entries<LineKind>(LINE_KINDS)) {
      const { from } = asked(factsOf('raw-2', id, { kind }));
      expect(from.fittingRadiusM, id).toBeGreaterThanOrEqual(kind.outsideM / 2);
    }
  });
});
