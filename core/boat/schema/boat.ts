import { z } from 'zod';
import { accepted, arrangement, demand, operatingState, picture, reading, stock } from './arrangement';
import { flooding, hull, reference, runState, weights } from './hull';
import { compartment, mountingSurface, opening, panel, person, standingPlace, stowageBox } from './interior';
import { angle, GRADES, id, length, name, point, record, size, text } from './quantities';
import { fixture, line, lineKind, part } from './things';

export const SCHEMA_VERSION = 1;
export const FORMAT = 'underberth-boat';

/** What the product promises to work with. */
export const LIMITS = { compartments: 400, things: 1000, lines: 500, stations: 200, bytes: 20_000_000 } as const;

export const boatSchema = z
  .looseObject({
    format: z.literal(FORMAT),
    schemaVersion: z.literal(SCHEMA_VERSION),
    engineVersion: text.optional().describe('engine that saved the file'),
    name,
    notes: text.optional(),
    practice: z
      .enum(['isoSmallCraft', 'usVoluntary'])
      .default('isoSmallCraft')
      .describe('practice profile: which of differing sources counts'),
    accuracy: z
      .partialRecord(z.enum(GRADES), size)
      .default({})
      .describe('two standard deviations of each grade in metres, where they differ from 0.005, 0.02, 0.04, 0.1'),
    gradeOf: record(z.enum(GRADES)).optional().describe('grade of a single value, by its path'),
    typed: z.record(z.string().max(300), text).optional().describe('what was typed, by the path of the value'),
    newHoleCostM: length.default(0.5).describe('cost of drilling one hole, in metres of hose'),
    greatestHeelDeg: angle.default(20).describe('heel for which through-hulls and joints are judged'),
    hull: hull.optional(),
    reference: reference.default({ freeboards: {}, levelMarks: {} }),
    weights: weights.optional(),
    compartments: record(compartment).default({}),
    panels: record(panel).default({}).describe('data of derived panels: rule, thickness, material, holes'),
    openings: record(opening).default({}),
    mountingSurfaces: record(mountingSurface).default({}),
    standingPlaces: record(standingPlace).default({}),
    people: record(person).optional(),
    fixtures: record(fixture).default({}),
    parts: record(part).default({}),
    lineKinds: record(lineKind).default({}),
    lines: record(line).default({}),
    arrangements: record(arrangement).default({}),
    currentArrangement: id.optional().describe('default: the first by id'),
    runStates: record(runState)
      .default({})
      .describe('conditions in which the set is run; without any: at anchor, upright'),
    operatingStates: record(operatingState).default({}),
    demands: record(demand).optional(),
    stowageBoxes: record(stowageBox).optional(),
    flooding: flooding.optional(),
    survey: z
      .looseObject({
        points: record(z.looseObject({ name: name.optional(), at: point.optional() })).optional(),
        datums: record(
          z.looseObject({ name: name.optional(), at: point, axis: z.enum(['x', 'y', 'z']).optional() }),
        ).optional(),
        readings: record(reading).optional(),
      })
      .optional(),
    pictures: record(picture).optional(),
    accepted: z.record(z.string().max(300), accepted).default({}).describe('accepted findings, by their key'),
    stock: z
      .record(z.string().max(300), stock)
      .optional()
      .describe('bought, have, fitted, by the key of a row of the take-off'),
  })
  .describe(
    'A boat and the plans to fit a desalination set into it. Lengths in metres, masses in kilograms, angles in degrees; x forward from the aftmost point, y to port, z up from the floating waterline.',
  );

export type Boat = z.infer<typeof boatSchema>;
export type Hull = NonNullable<Boat['hull']>;
export type Compartment = Boat['compartments'][string];
export type PanelData = Boat['panels'][string];
export type Opening = Boat['openings'][string];
export type Fixture = Boat['fixtures'][string];
export type Part = Boat['parts'][string];
export type Thing = Fixture | Part;
export type Port = Thing['ports'][string];
export type Service = Thing['services'][string];
export type Shape = Thing['shape'];
export type KeepOut = Fixture['sweeps'][string];
export type Line = Boat['lines'][string];
export type LineKind = Boat['lineKinds'][string];
export type LineEndFitting = NonNullable<Line['ends']['from']>;
export type Arrangement = Boat['arrangements'][string];
export type Place = Arrangement['places'][string];
export type RunState = Boat['runStates'][string];
export type Grade = (typeof GRADES)[number];
export type Medium = Line['medium'];
