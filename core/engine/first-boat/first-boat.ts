import type { Pose } from '../../base/vec';
import { type GenericSet, genericSet, type SetSize } from '../../boat/catalogue/generic-set';
import { SET_PUMPS } from '../../boat/kinds';
import { type Problem, problem } from '../../boat/problem';
import { checkBoat } from '../../boat/read';
import { type Boat, boatSchema, FORMAT, type Hull, SCHEMA_VERSION } from '../../boat/schema/boat';
import { overElectrics } from '../../rules/water/over-electrics';
import type { Dimensions, FormInput } from '../../shape/form/dimensions';
import { hullOfForm } from '../../shape/form/hull-of-form';
import {
  type Interior,
  interiorOf,
  type MeasuredLocker,
  siteOf,
  soleRange,
  usualSoleZ,
} from '../../shape/form/interior';
import { hullSurface } from '../../shape/hull/surface';
import type { HullSurface } from '../../shape/hull/types';
import { deriveLayout } from '../../shape/layout/derive';
import { solidBounds, thingSolids } from '../../shape/space/things';
import { run } from '../final-run';
import { findingsOf } from '../finding-stages';
import { sourceOf } from '../source';
import { Store } from '../store';
import { Arranger, type Yard } from './arrange';
import { putSet } from './set-places';
import { putFixtures, type UsualFixture } from './usual-fixtures';

/** What gives a boat her shape, outside and in. */
export interface ShellInput extends FormInput {
  /** Height of the cabin sole over the water, metres; negative below it. */
  readonly soleZ?: number | undefined;
  readonly lockers: readonly MeasuredLocker[];
}

/** Everything that the ten-minute door asks. What is left out is guessed. */
export interface FirstBoatInput extends ShellInput {
  readonly name?: string | undefined;
  readonly setSize: SetSize;
  /** Which of the usual fixtures are aboard. */
  readonly fixtures: Readonly<Record<UsualFixture, boolean>>;
}

export type Shell =
  | {
      readonly ok: true;
      readonly hull: Hull;
      readonly surface: HullSurface;
      readonly dimensions: Dimensions;
      readonly interior: Interior;
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export type FirstBoat =
  | { readonly ok: true; readonly boat: Boat; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Hull and divided interior: quick enough to be drawn while numbers are typed. */
export function shellOf(input: ShellInput): Shell {
  const made = hullOfForm(input);
  if (!made.ok) return made;
  const surface = hullSurface(made.hull);
  const [least, most] = soleRange(surface, made.dimensions);
  const soleZ = input.soleZ ?? Math.min(most, Math.max(least, usualSoleZ(surface, made.dimensions)));
  if (!(soleZ >= least && soleZ <= most))
    return {
      ok: false,
      problems: [
        problem(['soleZ'], soleZ, `in this hull it must be from ${levelWords(least)} to ${levelWords(most)} the water`),
      ],
    };
  const divided = interiorOf(siteOf(made.hull, surface, made.dimensions, soleZ), input.lockers);
  if (!divided.ok) return divided;
  return {
    ok: true,
    hull: made.hull,
    surface,
    dimensions: made.dimensions,
    interior: divided.interior,
    notes: made.notes,
  };
}

const levelWords = (z: number): string => `${Math.abs(z)} m ${z < 0 ? 'below' : 'above'}`;

const ARRANGEMENT = 'first';
/** A ballasted sailing boat is judged to the heel that she sails at; two hulls, or a motor boat, lean far less. Common practice, no source. */
const GREATEST_HEEL_DEG: Readonly<Record<Dimensions['form'], number>> = {
  longKeel: 20,
  finKeel: 20,
  lightDisplacement: 20,
  motorHull: 10,
  catamaran: 8,
};
/** Room for a bend beyond its least radius, in the order in which it is tried: too little blocks hoses, too much scatters the set. */
const BEND_ROOMS = [1.35, 1.8, 1.1] as const;
/** A hose that drips on electrics is as bad as so many lines without a way. */
const DRIPS_AS_BLOCKED = 2;
/** Share of blocked lines with which an arrangement is good enough. */
const FEW_BLOCKED = 0.06;

/**
 * A whole boat from a few numbers: hull, interior, the usual fixtures and a generic set in a first arrangement. Everything that
 * was not measured is graded guessed, so that hardly a verdict is clean before something is measured. Seconds of work, in slices:
 * the hull, then each arrangement that is tried and each of its lines.
 */
export function* firstBoat(input: FirstBoatInput): Generator<void, FirstBoat, void> {
  const shell = shellOf(input);
  if (!shell.ok) return shell;
  yield;
  const { hull, surface, interior, dimensions: d } = shell;
  const drafted = boatSchema.parse({
    format: FORMAT,
    schemaVersion: SCHEMA_VERSION,
    name: input.name?.trim() || FORM_NAMES[d.form],
    notes: 'Made from main dimensions. What is graded guessed was not measured.',
    hull,
    weights: { displacementKg: d.displacementKg },
    greatestHeelDeg: GREATEST_HEEL_DEG[d.form],
    compartments: interior.compartments,
    openings: interior.openings,
    panels: interior.panels,
    standingPlaces: interior.standingPlaces,
    runStates: {
      anchored: { name: 'At anchor', use: 'anchored', heelDeg: 3 },
      motoring: { name: 'Motoring', use: 'motoring', heelDeg: 5 },
    },
  });
  const layout = deriveLayout({
    compartments: drafted.compartments,
    panels: drafted.panels,
    newHoles: {},
    newHoleCostM: drafted.newHoleCostM,
  });
  const yard = { layout, hull: surface, openings: drafted.openings, rooms: interior.rooms };
  let best: { readonly boat: Boat; readonly faults: number } | null = null;
  for (const bendRoom of BEND_ROOMS) {
    const checked = checkBoat(JSON.parse(JSON.stringify(arranged(drafted, shell, input, yard, bendRoom))));
    if (!checked.ok) return { ok: false, problems: checked.problems };
    yield;
    const { blocked, dripping } = yield* faultsOf(checked.boat);
    const faults = blocked + DRIPS_AS_BLOCKED * dripping;
    if (!best || faults < best.faults) best = { boat: checked.boat, faults };
    if (dripping === 0 && blocked <= FEW_BLOCKED * Object.keys(checked.boat.lines).length) break;
  }
  if (!best) throw new Error('first boat: expected an arrangement to be tried');
  return { ok: true, boat: best.boat, notes: shell.notes };
}

/** The boat with its fixtures and a set in a first arrangement that leaves so much room for bends. */
function arranged(
  drafted: Boat,
  { dimensions: d, interior }: Extract<Shell, { ok: true }>,
  input: FirstBoatInput,
  yard: Yard,
  bendRoom: number,
): unknown {
  const arranger = new Arranger(yard);
  const fixtures = putFixtures(arranger, input.fixtures, d, interior, bendRoom);
  const has = (id: string): string | null => (Object.hasOwn(fixtures, id) ? id : null);
  const set = genericSet(input.setSize, {
    intake: has('intake'),
    bank: has('house-bank'),
    tank: has('water-tank'),
    freshPump: has('fresh-pump'),
  });
  putSet(arranger, set, fixtures, d, interior, bendRoom);
  const places = Object.fromEntries(
    Object.keys(set.parts).flatMap((id) => (arranger.places[id] ? [[id, { ...arranger.places[id] }]] : [])),
  );
  return {
    ...drafted,
    fixtures,
    mountingSurfaces: padsUnder(set, places, yard),
    parts: set.parts,
    lines: set.lines,
    arrangements: { [ARRANGEMENT]: { name: 'First guess', places } },
    currentArrangement: ARRANGEMENT,
    operatingStates: {
      making: {
        name: 'Making water',
        valves: { 'service-valve': 'sea', 'brine-out': 'open', ...(has('intake') ? { intake: 'open' } : {}) },
        running: Object.keys(set.parts).filter((id) => SET_PUMPS.has(set.parts[id]?.kind ?? '')),
      },
    },
  };
}

/** Under what is heavy the pad that it will need: nothing in the interior of a first boat is drawn to be screwed to. */
function padsUnder(
  { parts }: Pick<GenericSet, 'parts'>,
  places: Readonly<Record<string, Pose>>,
  { layout }: Yard,
): Boat['mountingSurfaces'] {
  return Object.fromEntries(
    Object.entries(parts).flatMap(([id, part]) => {
      const pose = places[id];
      const isHeld = part.mounting?.face === '-z' || part.kind === 'membrane';
      const compartment = pose && isHeld ? layout.compartmentAt(pose.at) : null;
      if (!pose || compartment === null) return [];
      const envelope = thingSolids(id, part, pose).find(({ layer }) => layer === 'furnishing');
      if (!envelope) return [];
      const { low, high } = solidBounds(envelope);
      const surface = {
        name: `Pad for ${part.name}, to be built`,
        compartment,
        at: [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, low[2]] as [number, number, number],
        normal: [0, 0, 1] as [number, number, number],
        widthM: high[1] - low[1],
        heightM: high[0] - low[0],
        material: 'ply',
        thicknessM: PAD_M,
        behind: 'unknown',
        partOf: 'pad',
        fixing: 'tabbed',
        grade: 'guessed',
      } as const;
      return [[`pad-${id}`, surface]];
    }),
  );
}

/** Two layers of ply: the screws of a pump module end in it. Common practice, no source. */
const PAD_M = 0.036;

/** Lines that find no way in an arrangement, and hoses that lie over electrics. */
function* faultsOf(boat: Boat): Generator<void, { readonly blocked: number; readonly dripping: number }, void> {
  const store = new Store(sourceOf(boat));
  let blocked = 0;
  for (const id of Object.keys(boat.lines)) {
    if (store.read(run, id).status === 'blocked') blocked += 1;
    yield;
  }
  const dangers = store
    .read(findingsOf, overElectrics.id)
    .filter((one) => one.outcome === 'fail' && one.severity === 'danger');
  return { blocked, dripping: dangers.length };
}

const FORM_NAMES: Readonly<Record<Dimensions['form'], string>> = {
  longKeel: 'Long-keeled boat',
  finKeel: 'Fin-keeled boat',
  lightDisplacement: 'Light-displacement boat',
  motorHull: 'Motor boat',
  catamaran: 'Catamaran',
};
