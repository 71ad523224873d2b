import { inOrder } from '../../../base/order';
import { signedArea } from '../../../base/ring';
import type { Vec2 } from '../../../base/vec';
import { heeled } from '../../../shape/hull/attitude';
import type { WaterPlane } from '../../../shape/hull/types';
import { compartmentOutline } from '../../views/compartments';
import { compartmentInCut, hullCut, hullCutLines, slabBehind, wallsInCut } from '../../views/cuts';
import { depthOf, type Primitive, project, SECTION, stroke } from '../../views/drawing';
import { planLines, profileLines, waterHeight } from '../../views/hull-lines';
import { labelPlace, type Ring } from '../../views/polygons';
import { crossingMarks, runLines, runLinesInSlab } from '../../views/runs';
import { thingLines } from '../../views/things';
import { area, DASH, line, type Mark, text, WIDTH } from '../marks';
import { holeMark, marksOf, missingMarks, runMarks } from './line-looks';
import type { ViewPlace } from './places';
import { type DrawnRun, type DrawnThing, type GeneralScene, SECTION_DEEP_M } from './scene';

/** A compartment that may be named on the drawing, with the room for its name in boat metres. */
export interface NamedPlace {
  readonly name: string;
  readonly at: Vec2;
  readonly widthM: number;
  readonly heightM: number;
  readonly areaM2: number;
}

export interface ViewMarks {
  readonly marks: readonly Mark[];
  /** Pieces of the runs of the plan on paper, for their letters and to keep words off. */
  readonly runs: readonly { readonly run: DrawnRun; readonly pieces: readonly (readonly Vec2[])[] }[];
  readonly names: readonly NamedPlace[];
  /** What is drawn of parts and fixtures, on paper. */
  readonly bodies: readonly { readonly low: Vec2; readonly high: Vec2; readonly isPart: boolean }[];
}

/** Hull, compartments, things and runs as one view shows them. */
export function viewMarks(scene: GeneralScene, place: ViewPlace): ViewMarks {
  const inSection = place.name === 'section' ? sectionGround(scene) : null;
  const compartments = inSection ? { lines: [], names: [] } : compartmentLines(scene, place);
  const things = seen(scene, place);
  const drawn = things.map((thing) => ({
    thing,
    lines: thingLines(thing.id, thing.thing, thing.pose, place.frame, thing.isPart ? 'part' : 'fixture'),
  }));
  const runs = scene.runs.map((run) => ({ run, pieces: piecesOf(scene, run, place) }));
  const ofThings = (isPart: boolean): Mark[] =>
    drawn
      .filter(({ thing }) => thing.isPart === isPart)
      .flatMap(({ lines }) => marksOf(lines.strokes, place.at, !isPart));
  return {
    marks: [
      ...(inSection ? marksOf(inSection, place.at) : hullMarks(scene, place)),
      ...marksOf(compartments.lines, place.at),
      ...ofThings(false),
      ...runs.flatMap(({ run, pieces }) => (run.line.existing ? existingMarks(pieces) : [])),
      ...ofThings(true),
      ...waterMarks(scene, place),
      ...runs.flatMap(({ run, pieces }) => (run.line.existing ? [] : marksOfRun(scene, run, pieces, place))),
    ],
    runs: runs.filter(({ run }) => !run.line.existing && run.path.routed),
    names: compartments.names,
    bodies: drawn.map(({ thing, lines }) => {
      const [x0, y1] = place.at(lines.bounds.low);
      const [x1, y0] = place.at(lines.bounds.high);
      return { low: [x0, y0], high: [x1, y1], isPart: thing.isPart };
    }),
  };
}

function hullMarks({ hull }: GeneralScene, place: ViewPlace): Mark[] {
  if (!hull) return [];
  const lines = place.name === 'profile' ? profileLines(hull) : planLines(hull);
  return marksOf(lines, place.at);
}

/** What the cut shows of hull and walls. */
function sectionGround({ boat, hull, layout, sectionX }: GeneralScene): Primitive[] {
  const cut = { frame: SECTION, at: sectionX };
  const inHull = hull ? hullCut(hull, cut) : null;
  const free = inHull && inHull.free.length > 0 ? inHull : null;
  const compartments = Object.keys(boat.compartments)
    .sort()
    .flatMap((id) =>
      compartmentInCut(layout, id, cut, free).map((ring, i) => stroke(`${id}/${i}`, id, 'compartmentCut', ring, true)),
    );
  return [...compartments, ...wallsInCut(layout, cut, free), ...(inHull ? hullCutLines(inHull) : [])];
}

function compartmentLines(scene: GeneralScene, place: ViewPlace): { lines: Primitive[]; names: NamedPlace[] } {
  const lines: Primitive[] = [];
  const names: NamedPlace[] = [];
  for (const [id, { name, kind }] of inOrder(scene.boat.compartments)) {
    const rings = compartmentOutline(scene.layout, id, place.frame, scene.hull);
    lines.push(...rings.map((ring: Ring, i) => stroke(`${id}/${i}`, id, 'compartment', ring, true)));
    const room = labelPlace(rings);
    const areaM2 = rings.reduce((sum, ring) => sum + Math.abs(signedArea(ring)), 0);
    if (room && place.name === 'plan' && kind !== 'bilge') names.push({ name, ...room, areaM2 });
  }
  return { lines, names: names.sort((a, b) => b.areaM2 - a.areaM2) };
}

/** Back to front; in the section those that the slab behind the cut meets. */
function seen({ things, sectionX }: GeneralScene, place: ViewPlace): readonly DrawnThing[] {
  const [from, to] = slabBehind({ frame: SECTION, at: sectionX }, SECTION_DEEP_M);
  const near = ({ low, high }: DrawnThing): number => Math.max(depthOf(place.frame, low), depthOf(place.frame, high));
  return things
    .filter(({ low, high }) => place.name !== 'section' || (high[0] >= from && low[0] <= to))
    .sort((a, b) => near(a) - near(b) || (a.id < b.id ? -1 : 1));
}

function piecesOf({ sectionX }: GeneralScene, { path }: DrawnRun, place: ViewPlace): Vec2[][] {
  const [low, high] = slabBehind({ frame: SECTION, at: sectionX }, SECTION_DEEP_M, 0.05);
  const lines =
    place.name === 'section'
      ? runLinesInSlab(path, place.frame, low, high, sectionX).filter(({ role }) => role !== 'runCut')
      : runLines(path, place.frame);
  return lines.flatMap((drawn) => (drawn.kind === 'stroke' ? [drawn.points.map(place.at)] : []));
}

const existingMarks = (pieces: readonly (readonly Vec2[])[]): Mark[] =>
  pieces.map((points) => line(points, { widthMm: WIDTH.dimension, ink: 'second' }));

function marksOfRun(
  scene: GeneralScene,
  run: DrawnRun,
  pieces: readonly (readonly Vec2[])[],
  place: ViewPlace,
): Mark[] {
  const { path } = run;
  if (!path.routed) {
    const stop = path.stopsAt && place.name !== 'section' ? place.at(project(place.frame, path.stopsAt)) : null;
    return pieces.flatMap((points) => missingMarks(points, stop));
  }
  const holes = place.name === 'section' ? [] : crossingMarks(path, scene.layout, place.frame);
  return [
    ...pieces.flatMap((points) => runMarks(points, run.style)),
    ...holes.filter(({ existing }) => !existing).flatMap(({ at }) => holeMark(place.at(at))),
  ];
}

const BEYOND_MM = 6;

/** The water at rest, and in the section as it stands with either side down. */
function waterMarks({ hull, report, boat, sectionX, low, high }: GeneralScene, place: ViewPlace): Mark[] {
  if (!hull || place.name === 'plan') return [];
  const [u0, u1] = place.name === 'profile' ? [low[0], high[0]] : [-high[1], -low[1]];
  const heightAt = (water: WaterPlane, u: number): number =>
    place.name === 'profile' ? waterHeight(water, u, 0) : waterHeight(water, sectionX, -u);
  const level = (water: WaterPlane, widthMm: number, dashMm: readonly number[] = []): Mark => {
    const ends = [u0, u1].map((u): Vec2 => place.at([u, heightAt(water, u)])) as [Vec2, Vec2];
    const slope = (ends[1][1] - ends[0][1]) / (ends[1][0] - ends[0][0]);
    return line(
      [
        [ends[0][0] - BEYOND_MM, ends[0][1] - BEYOND_MM * slope],
        [ends[1][0] + BEYOND_MM, ends[1][1] + BEYOND_MM * slope],
      ],
      { widthMm, dashMm },
    );
  };
  const [x, y] = place.at([u0, heightAt(report.attitude, u0)]);
  const sign = x - BEYOND_MM + 1.6;
  const marks: Mark[] = [
    level(report.attitude, WIDTH.joinery),
    area([
      [
        [sign - 1.3, y - 2.2],
        [sign + 1.3, y - 2.2],
        [sign, y - 0.1],
      ],
    ]),
  ];
  if (place.name === 'profile' || boat.greatestHeelDeg === 0) return marks;
  for (const tack of ['port', 'starboard'] as const)
    marks.push(level(heeled(report.attitude, boat.greatestHeelDeg, tack, hull), WIDTH.hair, DASH.hidden));
  const side = heeled(report.attitude, boat.greatestHeelDeg, 'starboard', hull);
  const [tx, ty] = place.at([u1, heightAt(side, u1)]);
  const inView = Math.min(Math.max(ty, place.box.y), place.box.y + place.box.heightMm);
  marks.push(text(`${boat.greatestHeelDeg}°`, [tx + BEYOND_MM - 1, inView - 1.2], { anchor: 'end' }));
  return marks;
}
