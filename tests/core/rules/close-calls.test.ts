import { analyze } from '@core/analyze';
import { checkBoat } from '@core/boat/read';
import type { Finding } from '@core/rules/finding';
import { describe, expect, it } from 'vitest';
import type { BoatDraft } from '../../support/boats';

type Verdict = Extract<Finding, { outcome: 'pass' | 'fail' }>;

function verdictOn(draft: BoatDraft, key: string): Verdict {
  const read = checkBoat(draft);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  const found = analyze(read.boat).findings.find((finding) => finding.key === key);
  if (found?.outcome !== 'pass' && found?.outcome !== 'fail') throw new Error(`${key}: got ${found?.outcome}`);
  return found;
}

const box = (x: number, y: number, z: number) => ({
  type: 'box' as const,
  sizeM: [x, y, z] as [number, number, number],
});

/** A locker of some length, 1.2 m wide and 0.8 m high, whose ends are known as the grade says. */
const locker = (lengthM: number, grade: 'measured' | 'taped' | 'guessed'): BoatDraft => ({
  format: 'underberth-boat',
  schemaVersion: 1,
  name: 'Locker',
  compartments: {
    locker: {
      name: 'Locker',
      view: 'section',
      outline: [
        [-0.6, 0],
        [0.6, 0],
        [0.6, 0.8],
        [-0.6, 0.8],
      ],
      rangeM: [0, lengthM],
      grade,
    },
  },
});

describe('what the tape may turn besides the measured value', () => {
  describe('a part between two walls', () => {
    const between = (lengthM: number) =>
      verdictOn(
        {
          ...locker(lengthM, 'taped'),
          parts: { chest: { name: 'Chest', kind: 'sparesBox', shape: box(0.4, 0.3, 0.3) } },
          arrangements: { plan: { name: 'Plan', places: { chest: { at: [0.2, 0, 0.15] } } } },
        },
        'access/overlap|chest|',
      );

    it('is a close call where its play is within the tape, wherever in it the part stands', () => {
      // Derived: 30 mm of play; chest 5 mm, two walls 20 mm each: root of sum of squares 28.7 mm, and 1.5 times that is 43 mm.
      const { outcome, measured, closeCall } = between(0.43);
      expect([outcome, measured.value]).toEqual(['pass', expect.closeTo(0.03, 6)]);
      expect(closeCall?.gradeM).toBeCloseTo(Math.hypot(0.005, 0.02, 0.02), 6);
    });

    it('is clean with more play than that, though it stands against a wall', () => {
      expect(between(0.45).closeCall).toBeUndefined();
    });
  });

  describe('room for a task with a thing beside it', () => {
    const beside = (gapM: number) =>
      verdictOn(
        {
          ...locker(2, 'measured'),
          fixtures: {
            tank: { name: 'Tank', kind: 'waterTank', shape: box(0.2, 0.4, 0.3), pose: { at: [1.15 + gapM, 0, 0.15] } },
          },
          parts: {
            filter: {
              name: 'Filter',
              kind: 'filter',
              shape: box(0.1, 0.1, 0.2),
              services: {
                bowl: { task: 'bowlDrop', at: [0, 0, -0.1], direction: [0, 0, -1], acrossM: [0.1, 0.1], clearM: 0.2 },
              },
            },
          },
          arrangements: { plan: { name: 'Plan', places: { filter: { at: [1, 0, 0.5] } } } },
        },
        'access/service-space|filter|bowl',
      );

    it('is a close call where the thing may reach into it', () => {
      // Derived: the tank, taped, stands 20 mm beside a bowl 100 mm wide; 1.5 times 20.6 mm is 31 mm.
      const { outcome, closeCall } = beside(0.02);
      expect([outcome, closeCall !== undefined]).toEqual(['pass', true]);
    });

    it('is clean where it cannot', () => {
      expect(beside(0.04).closeCall).toBeUndefined();
    });
  });

  describe('a stiff hose between two ports that face each other', () => {
    const facing = (gapM: number) =>
      verdictOn(
        {
          ...locker(3, 'measured'),
          parts: {
            a: {
              name: 'A',
              kind: 'strainer',
              shape: box(0.1, 0.1, 0.1),
              ports: { out: { at: [0.05, 0, 0], direction: [1, 0, 0] } },
            },
            b: {
              name: 'B',
              kind: 'filter',
              shape: box(0.1, 0.1, 0.1),
              ports: { in: { at: [-0.05, 0, 0], direction: [-1, 0, 0] } },
            },
          },
          lineKinds: {
            stiff: { name: 'Stiff', what: 'hose', outsideM: 0.02, bendRadiusM: 0.1, radiusTo: 'centreline' },
          },
          lines: {
            link: {
              name: 'Link',
              kind: 'stiff',
              medium: 'product',
              from: { thing: 'a', port: 'out' },
              to: { thing: 'b', port: 'in' },
            },
          },
          arrangements: {
            plan: { name: 'Plan', places: { a: { at: [1, 0, 0.4] }, b: { at: [1.1 + gapM, 0, 0.4] } } },
          },
        },
        'runs/blocked|link|',
      );

    it('is a close call where a slip of one port leaves no room to bend', () => {
      // Derived: two arcs of radius R put right an offset d over a length of sqrt(4 R d - d2): for d = 1.5 x 7.1 mm, 64 mm.
      const { outcome, measured, closeCall } = facing(0.04);
      expect([outcome, closeCall !== undefined]).toEqual(['pass', true]);
      expect(measured.value).toBeLessThan(0.0106);
    });

    it('is clean with room to bend', () => {
      expect(facing(0.2).closeCall).toBeUndefined();
    });
  });
});
