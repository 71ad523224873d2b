import { z } from 'zod';
import {
  accepted,
  arrangement,
  demand,
  operatingState,
  picture,
  stock,
  suppliedLength,
  takeoffSettings,
} from './arrangement';
import { flooding, hull, reference, runState, weights } from './hull';
import { compartment, mountingSurface, opening, panel, person, standingPlace, stowageBox } from './interior';
import { line, lineKind } from './lines';
import { needs } from './needs';
import { angle, GRADES, id, length, name, record, size, text } from './quantities';
import { serviceWork } from './service-work';
import { datum, reading, surveyPoint } from './survey';
import { fixture, part } from './things';

export const SCHEMA_VERSION = 1;
export const FORMAT = 'underberth-boat';

/** What the product promises to work with. */
export const LIMITS = {
  compartments: 400,
  things: 1000,
  lines: 500,
  stations: 200,
  surveyPoints: 100,
  readings: 1000,
  bytes: 20_000_000,
} as const;

export const boatSchema = z
  .looseObject({
    format: z.literal(FORMAT).describe('says that this is a boat file'),
    schemaVersion: z.literal(SCHEMA_VERSION).describe('version of this schema'),
    engineVersion: text.optional().describe('engine that saved the file'),
    name: name.describe('name of the boat'),
    notes: text.optional().describe('free text'),
    practice: z
      .enum(['isoSmallCraft', 'usVoluntary'])
      .default('isoSmallCraft')
      .describe('practice profile: which of differing sources counts; default isoSmallCraft'),
    accuracy: z
      .partialRecord(z.enum(GRADES), size)
      .default({})
      .describe('two standard deviations of each grade in metres, where they differ from 0.005, 0.02, 0.04, 0.1'),
    gradeOf: z
      .record(z.string().max(300), z.enum(GRADES))
      .optional()
      .describe(
        'grade of a single record or value where it differs, by its path such as fixtures.tank, openings.lid.widthM, compartments.locker.rangeM.1, compartments.locker.outline.2 (the side from that corner), hull.stations.s3; the longest path counts',
      ),
    typed: z.record(z.string().max(300), text).optional().describe('what was typed, by the path of the value'),
    plannedYear: z
      .int()
      .min(1900)
      .max(2200)
      .optional()
      .describe('year in which the job is to be done: ages count to it; absent: ages are not judged'),
    newHoleCostM: length.default(0.5).describe('cost of drilling one hole, in metres of hose; default 0.5'),
    greatestHeelDeg: angle
      .default(20)
      .describe(
        'heel to either side, degrees, for which through-hulls and joints are judged; default 20; a run-state that heels more counts in its place. A drawn hull floats at its upright volume when heeled; without a hull the water turns about the centreline at its level',
      ),
    hull: hull.optional().describe('the hull by its stations; without it nothing bounds the compartments'),
    reference: reference
      .default({ freeboards: {}, levelMarks: {} })
      .describe('how the boat floats in cruising trim; without measurements the water is at z = 0'),
    weights: weights.optional().describe('mass and stability of the boat, where known'),
    compartments: record(compartment)
      .default({})
      .describe('pieces of the interior, by id; runs go through these and through nothing else. They must not overlap'),
    panels: record(panel).default({}).describe('data of derived panels: rule, thickness, material, holes'),
    openings: record(opening)
      .default({})
      .describe('hatches, doors, lids: what a person reaches or carries a part through, by id'),
    mountingSurfaces: record(mountingSurface).default({}).describe('faces that something can be screwed to, by id'),
    standingPlaces: record(standingPlace)
      .default({})
      .describe('where a person stands, kneels or lies to reach something, by id'),
    people: record(person)
      .optional()
      .describe(
        'who works aboard, by id: service tasks are judged by the reach of the one that is chosen, by default the first by id; without anybody by that of a middling adult',
      ),
    fixtures: record(fixture)
      .default({})
      .describe('what is aboard already, with its place, by id. Fixtures and parts share one set of ids'),
    parts: record(part).default({}).describe('what is to be placed, by id; an arrangement says where'),
    lineKinds: record(lineKind)
      .default({})
      .describe("hoses, tubes and cables of this boat, by id; they count before the catalogue's"),
    lines: record(line)
      .default({})
      .describe(
        'wishes: this port to that port with this hose, tube or cable, by id; the program finds the run. A hose leaves its port straight for its rigid and straight length, at least for its radius and 6 mm, and passes a panel straight and square, for its own radius on both sides. Runs keep 2 mm from one another, also in a hole that they share, and may touch just beside it; a hole must be 2 mm wider than the hose or the crimped end that passes it (of two such ends the smaller leads), and what it carries already takes its room',
      ),
    arrangements: record(arrangement)
      .default({})
      .describe('complete choices of places, clip points and new holes, by id'),
    currentArrangement: id.optional().describe('id of the arrangement that is judged; default: the first by id'),
    runStates: record(runState)
      .default({})
      .describe('conditions in which the set is run; without any: at anchor, upright'),
    operatingStates: record(operatingState).default({}).describe('which valves stand how and which pumps run, by id'),
    demands: record(demand)
      .optional()
      .describe(
        'what the owner insists on, by id; noHaulOut is judged where a through-hull is chosen, noNewHoleBelowWaterline where a hole is planned, noDismantling and seenFrom of service tasks, notInBerthCompartment and these two where a place for a part is looked for; keepWithin is kept in the file',
      ),
    needs: needs
      .optional()
      .describe("water wanted and power there is for it, for the day's budget; without it nothing is said of that"),
    serviceWork: serviceWork
      .optional()
      .describe('what the minutes of service a year are reckoned with, where it differs from common practice'),
    stowageBoxes: record(stowageBox)
      .optional()
      .describe(
        'what must still find room, by id: a place is looked for in the compartments, clear of all that stands and runs there; decides no check',
      ),
    flooding: flooding.optional().describe('how water could spread'),
    survey: z
      .looseObject({
        points: record(surveyPoint)
          .optional()
          .describe(
            'surveyed points, by id; one with a place is held there, one without a place follows from readings',
          ),
        datums: record(datum).optional().describe('fixed points or planes that readings start from, by id'),
        readings: record(reading).optional().describe('what was read off the tape, by id'),
      })
      .optional()
      .describe('measurements as taken'),
    pictures: record(picture)
      .optional()
      .describe('photographs of compartments and drawings to trace over, beside the file, by id'),
    accepted: z.record(z.string().max(300), accepted).default({}).describe('accepted findings, by their key'),
    stock: z
      .record(z.string().max(300), stock)
      .optional()
      .describe('bought, have, fitted, by the key of a row of the parts-and-lengths list'),
    suppliedLengths: record(suppliedLength)
      .optional()
      .describe(
        'lengths of hose, tube or cable that come with the set or lie aboard and are tied to no line, by id: pieces are cut from them before anything is bought',
      ),
    takeoff: takeoffSettings
      .optional()
      .describe('what the parts-and-lengths list reckons with, where it differs from common practice'),
  })
  .describe(
    'A boat and the plans to fit a desalination set into it. Lengths in metres, masses in kilograms, angles in degrees; x forward from the aftmost point, y to port, z up from the floating waterline.',
  );

export type Boat = z.infer<typeof boatSchema>;
export type Hull = NonNullable<Boat['hull']>;
export type Compartment = Boat['compartments'][string];
export type PanelData = Boat['panels'][string];
export type Opening = Boat['openings'][string];
export type MountingSurface = Boat['mountingSurfaces'][string];
export type StandingPlace = Boat['standingPlaces'][string];
export type Fixture = Boat['fixtures'][string];
export type Part = Boat['parts'][string];
export type Thing = Fixture | Part;
export type Port = Thing['ports'][string];
export type Service = Thing['services'][string];
export type Shape = Thing['shape'];
export type KeepOut = Fixture['sweeps'][string];
export type Person = NonNullable<Boat['people']>[string];
export type Line = Boat['lines'][string];
export type LineKind = Boat['lineKinds'][string];
export type LineEndFitting = NonNullable<Line['ends']['from']>;
export type Arrangement = Boat['arrangements'][string];
export type Place = Arrangement['places'][string];
export type RunState = Boat['runStates'][string];
export type Grade = (typeof GRADES)[number];
export type Medium = Line['medium'];
