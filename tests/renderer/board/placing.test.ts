// @vitest-environment happy-dom
import { ringContains } from '@core/base/ring';
import type { Pose } from '@core/base/vec';
import { readBoat } from '@core/boat/read';
import type { PlaceReport } from '@core/engine/placement/place-report';
import { SECTION } from '@core/output/views/drawing';
import { deriveLayout } from '@core/shape/layout/derive';
import { tokens } from '@renderer/app/tokens';
import { annotate } from '@renderer/board/annotate';
import { cutScene } from '@renderer/board/cut-scene';
import type { Ctx } from '@renderer/board/paint/pen';
import { tintingOf } from '@renderer/board/placing/tinting';
import { type Scene, viewsOf } from '@renderer/board/scene';
import { compartmentsDrawn, extentOf } from '@renderer/board/shape';
import { sheetOf } from '@renderer/board/sheet';
import { placedThings } from '@renderer/board/things';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';
import { type AnswerAs, placeReportOf } from '../place-report';

const colours = tokens('light');
const standing = { yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
const inFore: Pose = { at: [2.3, 0.2, -0.28], ...standing };
const inAft: Pose = { at: [0.7, -0.3, -0.28], ...standing };

function boatNow() {
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error(read.problems[0]?.message);
  return read.boat;
}
const boat = boatNow();

const GOES: AnswerAs = { compartment: 'fore', verdict: 'goes', poses: { strainer: inFore } };
const CLOSE: AnswerAs = {
  compartment: 'aft',
  verdict: 'goesClose',
  outcomes: { dry: 'close' },
  poses: { strainer: inAft },
};
const NO: AnswerAs = { compartment: 'middle', verdict: 'no', outcomes: { dry: 'fail' } };
const reportOf = (answers: readonly AnswerAs[], stage?: PlaceReport['stage']): PlaceReport =>
  placeReportOf(boat, ['strainer'], answers, stage);

function sceneWith(report: PlaceReport, isOld = false): Scene {
  const [arrangementId = ''] = Object.keys(boat.arrangements);
  const layout = deriveLayout({ compartments: boat.compartments, panels: boat.panels, newHoles: {}, newHoleCostM: 1 });
  const extent = extentOf(null, layout);
  const sheet = sheetOf(1000, 700, extent);
  const sectionX = inFore.at[0];
  return {
    boat,
    arrangementId,
    hull: null,
    layout,
    extent,
    report: null,
    colours,
    layers: { names: true, balloons: true, stations: true, service: true, sweeps: false, heeled: true, grid: false },
    units: 'mm',
    sheet,
    camera: sheet.fit,
    selection: { kind: 'thing', id: 'strainer' },
    alsoSelected: [],
    activeView: 'plan',
    sectionX,
    section: cutScene(boat, null, layout, { frame: SECTION, at: sectionX }),
    level: { up: [0, 0, 1], levelM: 0 },
    heeled: null,
    heelDeg: 20,
    water: { profile: [], plan: [] },
    placed: placedThings(boat, arrangementId, null),
    paths: [],
    lifted: { things: new Set(), runs: new Set() },
    fonts: 0,
    tinting: tintingOf({ parts: ['strainer'], report, isOld, units: 'mm' }),
  };
}

interface Stroke {
  readonly colour: string;
  readonly width: number;
  readonly dash: readonly number[];
}

/** A drawing surface that keeps what is filled and stroked, and with what. */
function recorder(): {
  readonly ctx: Ctx;
  readonly fills: string[];
  readonly strokes: Stroke[];
  readonly words: string[];
} {
  const fills: string[] = [];
  const strokes: Stroke[] = [];
  const words: string[] = [];
  let dash: readonly number[] = [];
  const state: Record<string, unknown> = {};
  const own: Record<string, unknown> = {
    setLineDash: (next: readonly number[]) => {
      dash = next;
    },
    stroke: () => strokes.push({ colour: String(state.strokeStyle), width: Number(state.lineWidth), dash }),
    fill: () => fills.push(String(state.fillStyle)),
    fillRect: () => fills.push(String(state.fillStyle)),
    strokeRect: () => strokes.push({ colour: String(state.strokeStyle), width: Number(state.lineWidth), dash }),
    fillText: (text: string) => words.push(text),
  };
  const ctx = new Proxy(state, {
    get: (_, key) => own[String(key)] ?? state[String(key)] ?? (() => {}),
    set: (_, key, value) => {
      state[String(key)] = value;
      return true;
    },
  });
  return { ctx: ctx as unknown as Ctx, fills, strokes, words };
}

const planOf = (scene: Scene) => {
  const plan = viewsOf(scene).find(({ name }) => name === 'plan');
  if (!plan) throw new Error('expected a plan');
  return plan;
};

/** What a tint of one verdict draws in plan. */
function tintOf(verdict: AnswerAs['verdict'], isOld = false) {
  const scene = sceneWith(reportOf([{ compartment: 'fore', verdict }]), isOld);
  const plan = planOf(scene);
  const { ctx, fills, strokes } = recorder();
  scene.tinting?.paintGround(ctx, scene, plan, compartmentsDrawn(boat, scene.layout, null, plan.frame));
  return { fills, strokes };
}

describe('tints of the compartments', () => {
  it('differ by fill and pattern from verdict to verdict', () => {
    const looks = (['goes', 'goesClose', 'open', 'no', 'notYet'] as const).map((verdict) =>
      JSON.stringify(tintOf(verdict)),
    );
    expect(new Set(looks).size).toBe(5);
    // Told apart without colour, too: those that share a ground have other strokes or dots.
    expect(tintOf('goes')).toEqual({ fills: [colours.wash], strokes: [] });
    expect(tintOf('goesClose').strokes.map(({ colour }) => colour)).toEqual([colours.accl]);
    expect(tintOf('no').strokes).toHaveLength(2);
    expect(tintOf('open').strokes).toHaveLength(0);
    expect(tintOf('open').fills).toHaveLength(2);
  });

  it('are hatched across while the boat has changed since', () => {
    for (const verdict of ['goes', 'goesClose', 'open', 'no', 'notYet'] as const) {
      const fresh = tintOf(verdict).strokes.length;
      const old = tintOf(verdict, true).strokes;
      expect(old).toHaveLength(fresh + 1);
      expect(old.at(-1)?.dash).toEqual([5, 4]);
    }
  });
});

describe('words on the drawing', () => {
  it('are ranks in their compartments, once all are judged', () => {
    const scene = sceneWith(reportOf([GOES, CLOSE, NO]));
    const { ranks = [] } = annotate(scene);
    const plan = planOf(scene);
    const inPlan = ranks.filter(({ view }) => view === 'plan');
    expect(inPlan.map(({ compartment, rank }) => [compartment, rank]).sort()).toEqual([
      ['aft', 2],
      ['fore', 1],
    ]);
    const drawn = compartmentsDrawn(boat, scene.layout, null, plan.frame);
    for (const { compartment, at } of inPlan)
      expect(drawn.find(({ id }) => id === compartment)?.rings.some((ring) => ringContains(ring, at))).toBe(true);
    expect(annotate(sceneWith(reportOf([GOES, CLOSE, NO], 'first'))).ranks).toEqual([]);
  });

  it('are a name and a word of the reason where it cannot go', () => {
    const { words } = annotate(sceneWith(reportOf([GOES, CLOSE, NO])));
    const ofMiddle = words
      .filter(({ view, subject }) => view === 'plan' && subject === 'middle')
      .map(({ text }) => text);
    expect(ofMiddle).toContain('wet');
    expect(words.filter(({ subject, text }) => subject === 'fore' && text === 'wet')).toEqual([]);
  });
});

describe('places that were found', () => {
  const painted = (answers: readonly AnswerAs[], chosen: string | null) => {
    const scene = sceneWith(reportOf(answers));
    const drawn = recorder();
    scene.tinting?.paintPlaces(drawn.ctx, scene, annotate(scene), chosen, null);
    return drawn;
  };
  const dashed = (strokes: readonly Stroke[], colour: string): number =>
    strokes.filter((stroke) => stroke.colour === colour && stroke.dash.length > 0).length;

  it('are dashed ghosts, the one that is looked at in brass with its compartment and a caption', () => {
    const rest = painted([GOES, CLOSE, NO], null);
    // Two places, in profile and plan each, and the one that the section cuts.
    expect(dashed(rest.strokes, colours.draw)).toBe(5);
    expect(rest.words).toEqual(expect.arrayContaining(['1', '2']));
    expect(rest.words).not.toContain('Fore locker');
    const looked = painted([GOES, CLOSE, NO], 'fore');
    expect(dashed(looked.strokes, colours.draw)).toBe(2);
    expect(looked.strokes.filter(({ colour, width }) => colour === colours.accl && width === 2.2)).toHaveLength(3);
    expect(looked.words).toContain('Fore locker');
  });

  it('are in crimson, and only when looked at, where it cannot go', () => {
    const near: AnswerAs = { ...NO, poses: { strainer: { at: [1.5, 0.3, -0.28], ...standing } } };
    expect(dashed(painted([near], null).strokes, colours.bad)).toBe(0);
    expect(dashed(painted([near], 'middle').strokes, colours.bad)).toBe(2);
  });
});
