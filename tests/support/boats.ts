import type { boatSchema } from '@core/boat/schema/boat';
import type { z } from 'zod';

/** What a person may write: the input form of the schema, defaults left out. */
export type BoatDraft = z.input<typeof boatSchema>;

const box = (sizeM: [number, number, number]) => ({ type: 'box' as const, sizeM });

/** The smallest file that is a boat. */
export const emptyBoat = (): BoatDraft => ({ format: 'underberth-boat', schemaVersion: 1, name: 'Empty' });

/**
 * Three box lockers in a row along x, 1 m long, 1.2 m wide, 0.8 m high, a 15 mm drillable bulkhead between neighbours.
 * A through-hull in the aft locker, a strainer in the middle one, a pump and a tank in the forward one; no hull.
 */
export function threeLockers(): BoatDraft {
  const locker = (name: string, from: number): NonNullable<BoatDraft['compartments']>[string] => ({
    name,
    view: 'section',
    outline: [
      [-0.6, -0.4],
      [0.6, -0.4],
      [0.6, 0.4],
      [-0.6, 0.4],
    ],
    rangeM: [from, from + 1],
  });
  return {
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'Three lockers',
    compartments: {
      aft: locker('Aft locker', 0),
      middle: locker('Middle locker', 1.015),
      fore: locker('Fore locker', 2.03),
    },
    panels: {
      'aft-middle': { between: ['aft', 'middle'], near: [1.0075, 0, 0], rule: 'drill', thicknessM: 0.015 },
      'middle-fore': {
        between: ['middle', 'fore'],
        near: [2.0225, 0, 0],
        rule: 'drill',
        thicknessM: 0.015,
        holes: { loom: { at: [2.0225, 0.3, 0.2], diameterM: 0.03 } },
      },
    },
    openings: {
      lid: { name: 'Fore lid', compartment: 'fore', at: [2.53, 0, 0.4], normal: [0, 0, 1], widthM: 0.8, heightM: 0.7 },
    },
    fixtures: {
      intake: {
        name: 'Intake',
        kind: 'seacock',
        shape: box([0.1, 0.1, 0.15]),
        pose: { at: [0.3, 0, -0.325] },
        ports: { out: { at: [0, 0, 0.075], direction: [0, 0, 1], medium: 'seaWater', role: 'out' } },
        opensToSea: { at: [0, 0, -0.075], boreM: 0.019 },
        valve: { states: ['open', 'shut'], normally: 'open' },
      },
      battery: {
        name: 'House bank',
        kind: 'battery',
        shape: box([0.33, 0.175, 0.22]),
        pose: { at: [0.5, 0.4, -0.28] },
        massKg: 26,
        ports: { posts: { at: [0.165, 0, 0.05], direction: [1, 0, 0], medium: 'dcPower', role: 'both' } },
        electric: { sourceV: 12.8 },
      },
      tank: {
        name: 'Water tank',
        kind: 'waterTank',
        shape: box([0.4, 0.3, 0.3]),
        pose: { at: [2.7, -0.4, -0.2] },
        ports: { fill: { at: [-0.2, 0, 0.1], direction: [-1, 0, 0], medium: 'product', role: 'in' } },
      },
    },
    parts: {
      strainer: {
        name: 'Strainer',
        kind: 'strainer',
        shape: box([0.13, 0.12, 0.2]),
        massKg: 2.5,
        ports: {
          in: { at: [-0.065, 0, 0.06], direction: [-1, 0, 0], medium: 'seaWater', role: 'in' },
          out: { at: [0.065, 0, 0.06], direction: [1, 0, 0], medium: 'seaWater', role: 'out' },
        },
        services: {
          lid: { task: 'lid', at: [0, 0, 0.1], direction: [0, 0, 1], acrossM: [0.12, 0.12], clearM: 0.15 },
        },
      },
      pump: {
        name: 'Pump module',
        kind: 'pumpModule',
        shape: box([0.4, 0.3, 0.28]),
        massKg: 25,
        ports: {
          in: { at: [-0.2, 0.05, 0], direction: [-1, 0, 0], medium: 'seaWater', role: 'in' },
          product: { at: [0, -0.15, 0.05], direction: [0, -1, 0], medium: 'product', role: 'out' },
          power: { at: [-0.2, -0.1, 0.1], direction: [-1, 0, 0], medium: 'dcPower', role: 'in' },
        },
        electric: { drawA: 30, dropShare: 0.1 },
      },
    },
    lines: {
      'raw-1': {
        name: 'Intake to strainer',
        kind: 'hose-suction-19',
        medium: 'seaWater',
        from: { thing: 'intake', port: 'out' },
        to: { thing: 'strainer', port: 'in' },
      },
      'raw-2': {
        name: 'Strainer to pump',
        kind: 'hose-suction-19',
        medium: 'seaWater',
        from: { thing: 'strainer', port: 'out' },
        to: { thing: 'pump', port: 'in' },
      },
      product: {
        name: 'Product to tank',
        kind: 'tube-product-6',
        medium: 'product',
        from: { thing: 'pump', port: 'product' },
        to: { thing: 'tank', port: 'fill' },
      },
      power: {
        name: 'Battery to pump',
        kind: 'cable-pair-16',
        medium: 'dcPower',
        from: { thing: 'battery', port: 'posts' },
        to: { thing: 'pump', port: 'power' },
        currentA: 30,
      },
    },
    arrangements: {
      first: {
        name: 'First',
        places: {
          strainer: { at: [1.5, 0, 0] },
          pump: { at: [2.6, 0.3, -0.2] },
        },
      },
    },
    currentArrangement: 'first',
  };
}
