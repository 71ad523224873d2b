import { signedArea } from '@core/base/ring';
import { cross, dot, subtract, type Vec2, type Vec3 } from '@core/base/vec';
import { PART_TEMPLATES } from '@core/boat/catalogue/part-templates';
import { partOf } from '@core/boat/catalogue/templates';
import type { Part, Shape } from '@core/boat/schema/boat';
import type { PrintContext } from '@core/output/sheets/context';
import { portMarks, serviceMarks } from '@core/output/sheets/mock-up/faces';
import { MOST_SHEETS, mockUpSheets } from '@core/output/sheets/mock-up/mock-up';
import { type Net, netsOf } from '@core/output/sheets/mock-up/net';
import { openPress } from '@core/output/sheets/pdf';
import { envelopePoints } from '@core/output/views/envelope';
import { unionOf } from '@core/output/views/polygons';

import { describe, expect, it } from 'vitest';
import { pagesOf } from '../../../../support/pdf-content';
import { printFonts } from '../../../../support/print-fonts';

const press = await openPress(printFonts);
const context: PrintContext = {
  paper: 'A4',
  lettering: press,
  date: '2026-11-25',
  boatName: 'Marram',
  practice: 'isoSmallCraft',
  fileName: 'marram.boat.json',
  units: 'mm',
};
const facts = { title: 'Mock-up', subject: '', made: new Date('2026-11-25T00:00:00Z') };
const template = (id: string): Part => {
  const found = PART_TEMPLATES.find((one) => one.id === id);
  if (!found) throw new Error(`expected a template ${id}`);
  return partOf(found);
};
const sheetsOf = (part: Part, own: PrintContext = context) => {
  const made = mockUpSheets(part, own);
  if ('problem' in made) throw new Error(made.problem);
  return made.sheets;
};

const box = (x: number, y: number, z: number): Shape => ({ type: 'box', sizeM: [x, y, z] });
const SHAPES: readonly Shape[] = [
  box(0.52, 0.3, 0.28),
  box(0.06, 0.05, 0.03),
  box(0.01, 0.4, 0.4),
  ...(['x', 'y', 'z'] as const).map((axis): Shape => ({ type: 'cylinder', diameterM: 0.08, lengthM: 0.7, axis })),
];
const area = (rings: readonly (readonly Vec2[])[]): number =>
  rings.reduce((sum, ring) => sum + Math.abs(signedArea(ring)), 0);
const apart = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Surface of the envelope in square millimetres: closed forms. */
const surface = (shape: Shape): number => {
  if (shape.type === 'box') {
    const [a, b, c] = shape.sizeM;
    return 2e6 * (a * b + b * c + c * a);
  }
  const r = shape.diameterM / 2;
  return 1e6 * (2 * Math.PI * r * shape.lengthM + 2 * Math.PI * r * r);
};

describe('the net of an envelope', () => {
  it('has the surface of the body, and flaps besides: nothing lies over anything else (derived: closed forms)', () => {
    for (const shape of SHAPES)
      for (const net of netsOf(shape)) {
        const faces = net.faces.map(({ outline }) => outline);
        expect(area(faces) / surface(shape)).toBeCloseTo(1, shape.type === 'box' ? 9 : 3);
        const whole = area(unionOf(net.cuts));
        expect(whole).toBeCloseTo(area(net.cuts), 3);
        expect(whole / (area(faces) + area(net.flaps))).toBeCloseTo(1, 6);
      }
  });

  it('keeps every length on a face and shows its outer side', () => {
    for (const shape of SHAPES.filter(({ type }) => type === 'box'))
      for (const net of netsOf(shape))
        for (const face of net.faces) {
          const corners = envelopePoints(shape).filter((p) => Math.abs(face.near(p).offM) < 1e-9);
          expect(corners).toHaveLength(4);
          const [p, q, r] = corners as [Vec3, Vec3, Vec3, Vec3];
          for (const [a, b] of [
            [p, q],
            [q, r],
            [r, p],
          ] as const)
            expect(apart(face.place(a), face.place(b))).toBeCloseTo(
              1000 * Math.sqrt(dot(subtract(a, b), subtract(a, b))),
              6,
            );
          // Seen from outside, the sense of turning of three corners is that of the paper (y down turns the sign).
          const out = dot(cross(subtract(q, p), subtract(r, p)), face.near(p).normal);
          expect(Math.sign(signedArea([p, q, r].map((c) => face.place(c))))).toBe(-Math.sign(out));
        }
  });

  it('of a tube is as wide as its circumference, pi times 80 mm (derived)', () => {
    for (const net of netsOf({ type: 'cylinder', diameterM: 0.08, lengthM: 0.7, axis: 'x' })) {
      const mantle = net.faces.find(({ way }) => way === 'round');
      const [a, b, c] = mantle?.outline ?? [];
      const sides = [apart(a as Vec2, b as Vec2), apart(b as Vec2, c as Vec2)].sort((p, q) => p - q);
      expect(sides[0]).toBeCloseTo(251.327, 3);
      expect(sides[1]).toBeCloseTo(700, 6);
      // A point of the top, forward end, lies on the mantle as far from the seam underneath as the tube is half round.
      const top = mantle?.place([0.35, 0, 0.04]) as Vec2;
      const seam = mantle?.place([0.35, 1e-9, -0.04]) as Vec2;
      expect(apart(top, seam)).toBeCloseTo(251.327 / 2, 2);
    }
  });

  it('folds up: faces that share an edge of the body carry it at the same length, and each fold is such an edge', () => {
    for (const shape of SHAPES.filter(({ type }) => type === 'box')) {
      const sides = shape.type === 'box' ? shape.sizeM.map((m) => m * 1000) : [];
      for (const net of netsOf(shape))
        for (const [a, b] of net.folds)
          expect(Math.min(...sides.map((side) => Math.abs(side - apart(a, b))))).toBeLessThan(1e-6);
    }
  });
});

describe('marks on the faces', () => {
  const pump = template('pump-module-12v');
  const net = netsOf(pump.shape)[0] as Net;

  it('put each port where it is, with how far it leaves straight', () => {
    const [inlet] = portMarks(pump, net);
    // The inlet is on the aft end, 80 mm to port of its middle and at half its height: sides 300 x 280.
    expect(inlet?.face.way).toBe('-x');
    expect(inlet?.slantDeg).toBeCloseTo(0, 9);
    const [low, high] = [inlet?.face.room.low as Vec2, inlet?.face.room.high as Vec2];
    const centre: Vec2 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
    expect(apart(inlet?.at as Vec2, centre)).toBeCloseTo(80, 6);
  });

  it('outline the room of each task on the face that it starts from', () => {
    const rooms = serviceMarks(pump, net);
    expect(rooms.map(({ service, face }) => [service.task, face.way])).toEqual([
      ['impellerCover', '+x'],
      ['oilGlass', '-y'],
      ['oilFill', '+z'],
      ['oilDrain', '-z'],
      ['air', '+y'],
    ]);
    expect(area(rooms[0]?.rings ?? [])).toBeCloseTo(120 * 120, 3);
  });
});

describe('the sheets of a mock-up', () => {
  it('draw every side of a small box within a tenth of a millimetre', async () => {
    const part: Part = { ...template('tee'), shape: box(0.0634, 0.0412, 0.0285), ports: {}, services: {} };
    const [, tile, ...more] = pagesOf((await press.print(sheetsOf(part), facts)).bytes);
    expect(more).toEqual([]);
    const folds = (tile?.paths ?? [])
      .filter(({ dashed, widthMm, points }) => dashed && widthMm > 0.2 && points.length === 2)
      .map(({ points }) => apart(points[0] as Vec2, points[1] as Vec2));
    // Twelve edges: seven carry flaps, five join faces; each side of the box comes four times.
    expect(folds).toHaveLength(12);
    for (const side of [63.4, 41.2, 28.5])
      expect(folds.filter((length) => Math.abs(length - side) < 0.1)).toHaveLength(4);
  });

  it('carry the check line on every one, and nothing outside the paper', async () => {
    for (const [id, paper] of [
      ['pump-module-12v', 'A4'],
      ['membrane-40', 'A3'],
      ['feed-pump', 'letter'],
    ] as const) {
      const pages = pagesOf((await press.print(sheetsOf(template(id), { ...context, paper }), facts)).bytes);
      for (const page of pages) {
        const inside = ([x, y]: readonly [number, number]): boolean =>
          x > 4 && y > 4 && x < page.widthMm - 4 && y < page.heightMm - 4;
        expect(page.paths.every(({ points }) => points.every(inside))).toBe(true);
        expect(page.words.every(({ at }) => inside(at))).toBe(true);
        const hundred = page.paths.filter(
          ({ points, how }) =>
            how === 'stroke' &&
            points.length === 2 &&
            Math.abs(apart(points[0] as Vec2, points[1] as Vec2) - 100) < 1e-4 &&
            (points[0]?.[1] ?? 0) > page.heightMm * 0.6,
        );
        expect(hundred.length).toBeGreaterThanOrEqual(1);
      }
    }
  });

  it('name the part that is too large, its size and the limit', () => {
    const large: Part = { ...template('tee'), name: 'Tank', shape: box(6, 4, 3) };
    const made = mockUpSheets(large, context);
    expect('problem' in made && made.problem).toMatch(
      new RegExp(`Tank is 6000 × 4000 × 3000 mm: more than ${MOST_SHEETS} sheets at full size. Choose A3`),
    );
  });
});
