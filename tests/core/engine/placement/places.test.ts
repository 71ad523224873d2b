import { applied } from '@core/boat/edits';
import { NoSuchGroup } from '@core/engine/placement/moved-group';
import type { PlaceReport } from '@core/engine/placement/place-report';
import { placesFor, startPlaces } from '@core/engine/placement/places';
import { placesSchema, printedPlaces } from '@core/engine/placement/printed-places';
import { placeText } from '@core/output/text/place-text';
import { describe, expect, it } from 'vitest';
import { mirrored } from '../../../support/boat-twins';
import { type BoatDraft, threeLockers } from '../../../support/boats';
import { answerIn, answersFor, boatOf, lockers } from './lockers';
import { AskedBoat, expectKept } from './promises';

// Every figure here is derived from the sizes of the lockers: 1 x 1.2 x 0.8 m, from 0.4 m below the water to 0.4 m above it.

describe('the way in', () => {
  it('passes a lid that is larger, fails one that is proved too small by what is missing, and asks for one that is not drawn', () => {
    expect(answerIn(lockers(), 'fore').tests.passes.outcome).toBe('pass');
    const narrow = lockers({}, (draft) => {
      const lid = draft.openings?.['lid-fore'];
      if (lid) lid.widthM = 0.15;
    });
    // thinnest side 0.2 m, clear width 0.15 m: 50 mm are missing whatever way round
    const answer = answerIn(narrow, 'fore');
    expect(answer).toMatchObject({ verdict: 'no', decides: 'passes' });
    expect(answer.tests.passes).toMatchObject({ reason: 'tooBigForOpening', about: ['thing', 'lid-fore'] });
    expect(answer.tests.passes.measured?.value).toBeCloseTo(-0.05, 9);
    expect(answer.tests.fits.outcome).toBe('notJudged');
    const shut = lockers({}, (draft) => {
      delete draft.openings?.['lid-aft'];
    });
    expect(answerIn(shut, 'aft')).toMatchObject({ verdict: 'open', decides: 'passes' });
  });
});

describe('room', () => {
  it('is proved too small for a part that is larger than the boat, everywhere, with the sizes', () => {
    const answers = Object.values(answersFor(lockers({ shape: { type: 'box', sizeM: [5, 4, 3] } })));
    expect(answers).toHaveLength(3);
    for (const { verdict, tests, best } of answers) {
      expect(verdict).toBe('no');
      expect(tests.fits).toMatchObject({ outcome: 'fail', reason: 'thickerThanRoom' });
      expect(best).toBeNull();
    }
  });

  it('is proved too short for a pipe longer than the diagonal, sqrt(1 + 1.44 + 0.64) = 1.755 m, and takes one along its length', () => {
    const pipe = (lengthM: number) => lockers({ shape: { type: 'cylinder', axis: 'x', diameterM: 0.06, lengthM } });
    expect(answerIn(pipe(1.8), 'aft').tests.fits).toMatchObject({ outcome: 'fail', reason: 'longerThanRoom' });
    // 1.1 m goes athwart alone: the locker is 1 m long and 1.2 m wide
    const { verdict, best } = answerIn(pipe(1.1), 'aft');
    expect(verdict).not.toBe('no');
    expect(Math.abs(best?.poses.thing?.yawDeg ?? 0)).toBe(90);
  });

  it('is found beside what stands there, and not where nothing is left', () => {
    const filled = (widthM: number) =>
      lockers({ mounting: { upright: true } }, (draft) => {
        draft.fixtures = {
          chest: {
            name: 'Chest',
            kind: 'other',
            shape: { type: 'box', sizeM: [1, widthM, 0.8] },
            pose: { at: [2.53, -0.6 + widthM / 2, 0] },
          },
        };
      });
    // 1.2 - 0.97 = 0.23 m are left for a side of 0.2; then 0.15
    expect(answerIn(filled(0.97), 'fore').tests.fits.outcome).not.toBe('fail');
    const { tests } = answerIn(filled(1.05), 'fore');
    expect(tests.fits).toMatchObject({ outcome: 'fail', reason: 'noPlaceFound' });
  });
});

describe('mounting', () => {
  const withFace = (sizeM: number | null) =>
    lockers({ mounting: { face: '-z', upright: true }, massKg: 12 }, (draft) => {
      if (sizeM === null) return;
      draft.mountingSurfaces = {
        shelf: {
          compartment: 'fore',
          at: [2.53, 0, -0.2],
          normal: [0, 0, 1],
          widthM: sizeM,
          heightM: sizeM,
          material: 'ply',
          thicknessM: 0.018,
        },
      };
    });

  it('finds the place on the face that is drawn, and says so in the edit', () => {
    const answer = answerIn(withFace(0.5), 'fore');
    expect(answer.tests.mounts.outcome).toBe('pass');
    expect(answer.best?.mountedOn).toBe('shelf');
    // its foot on the shelf: half its height over it
    expect(answer.best?.poses.thing?.at[2]).toBeCloseTo(-0.1, 6);
    const after = applied(withFace(0.5), answer.best?.patches ?? []);
    expect(after.arrangements.first?.places.thing?.mountedOn).toBe('shelf');
  });

  it('fails where the face that is drawn is too small, and cannot tell where none is', () => {
    expect(answerIn(withFace(0.1), 'fore')).toMatchObject({ verdict: 'no', decides: 'mounts' });
    expect(answerIn(withFace(0.5), 'aft')).toMatchObject({ verdict: 'open', decides: 'mounts' });
    expect(answerIn(withFace(null), 'aft').tests.mounts.enterNext).toContain('Thing');
  });
});

describe('service', () => {
  const withTask = (clearM: number) =>
    lockers({
      mounting: { upright: true },
      services: { top: { task: 'other', at: [0, 0, 0.1], direction: [1, 0, 0], acrossM: [0.1, 0.1], clearM } },
    });

  it('stands where its room is: 0.5 m before it in a locker of 1 x 1.2 m, never 1.4 m', () => {
    expect(answerIn(withTask(0.5), 'middle').tests.serves.outcome).not.toBe('fail');
    expect(answerIn(withTask(1.4), 'middle')).toMatchObject({ verdict: 'no', decides: 'serves' });
  });
});

describe('cool', () => {
  const warm = (heatW: number, summerTemperatureC?: number) =>
    lockers({ heatW, greatestC: 45 }, undefined, summerTemperatureC === undefined ? {} : { summerTemperatureC });

  it('balances the heat over walls of 3 W/m2K x 5.92 m2 = 17.76 W/K: 100 W warm by 5.6 K, 500 W by 28.2 K', () => {
    expect(answerIn(warm(100, 30), 'aft').tests.cool.outcome).toBe('pass');
    expect(answerIn(warm(100, 30), 'aft').tests.cool.measured?.value).toBeCloseTo(30 + 100 / 17.76, 1);
    expect(answerIn(warm(500, 30), 'aft')).toMatchObject({ verdict: 'no', decides: 'cool' });
    expect(answerIn(warm(500), 'aft')).toMatchObject({ verdict: 'open', decides: 'cool' });
  });
});

describe('dry', () => {
  it('keeps what is open to water out of the cone under a hatch in the weather, and lets anything else stand there', () => {
    const under = (kind: 'fuse' | 'other') =>
      lockers({ kind }, (draft) => {
        const lid = draft.openings?.['lid-fore'];
        if (lid) lid.weatherDeck = true;
      });
    // the lid is 0.8 m long in a locker of 1 m: 45 degrees from its edge reach the walls 0.1 m below it
    expect(answerIn(under('fuse'), 'fore')).toMatchObject({ verdict: 'no', decides: 'dry' });
    expect(answerIn(under('fuse'), 'fore').tests.dry.about).toContain('lid-fore');
    expect(answerIn(under('other'), 'fore').tests.dry).toMatchObject({ outcome: 'pass', reason: 'waterHarmless' });
  });
});

describe('lines', () => {
  /** A hose of a supplied length from the aft locker; its end there is at x = 0.3. */
  const hosed = (lengthM: number): BoatDraft => {
    const draft = threeLockers();
    const lead = draft.lines?.['raw-1'];
    if (lead) lead.supplied = { lengthM, spareM: 0 };
    return draft;
  };

  it('are proved too short by the straight way to the nearest corner', () => {
    // port at x = 0.3, middle locker from 1.015: 0.715 m less the 0.088 m from the middle of the part to its port
    const answer = answersFor(boatOf(hosed(0.5)), ['strainer']).fore;
    expect(answer).toMatchObject({ verdict: 'no', decides: 'reaches' });
    expect(answer?.tests.reaches).toMatchObject({ reason: 'lineTooShort', about: ['raw-1'] });
  });
});

describe('demands', () => {
  it('rule out berths and what is too far, by the id of the demand', () => {
    const boat = lockers({}, (draft) => {
      draft.demands = {
        quiet: { kind: 'notInBerthCompartment' },
        near: { kind: 'keepWithin', place: 'sole', distanceM: 0.6 },
        other: { kind: 'notInBerthCompartment', subject: 'somebody-else' },
      };
      draft.standingPlaces = { sole: { name: 'Sole', at: [0.5, 0, 0] } };
      const aft = draft.compartments?.aft;
      if (aft) aft.berth = true;
    });
    const { aft, middle, fore } = answersFor(boat);
    expect(aft).toMatchObject({ verdict: 'no', breaks: ['quiet'] });
    expect(fore).toMatchObject({ verdict: 'no', breaks: ['near'] });
    // the middle locker begins 0.515 m from the place, and half the part is 0.1 m at least: the middle of none stands within 0.6
    expect(middle?.verdict).toBe('no');
    expect(middle?.breaks).toContain('near');
  });
});

describe('the report', () => {
  it('tells tints first and never takes a proved no back; the end ranks what goes before what does not', () => {
    const work = startPlaces(boatOf(threeLockers()), ['strainer']);
    const told: PlaceReport[] = [];
    let last: PlaceReport | null = null;
    while (!last) {
      const step = work.step();
      if ('answer' in step) last = step.answer;
      else if (step.partial) told.push(step.partial);
    }
    expect(told[0]?.stage).toBe('first');
    expect(last.stage).toBe('settled');
    expect(last.compartments.some(({ verdict }) => verdict === 'notYet')).toBe(false);
    const noes = told[0]?.compartments.filter(({ verdict }) => verdict === 'no') ?? [];
    for (const { compartment } of noes)
      expect(last.compartments.find((one) => one.compartment === compartment)?.verdict).toBe('no');
    const order = last.compartments.map(({ verdict }) => ['goes', 'goesClose', 'open', 'no'].indexOf(verdict));
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(last.compartments.find(({ isNow }) => isNow)?.compartment).toBe('middle');
  });

  it('prints what its schema says, and says something of every compartment', () => {
    const boat = boatOf(threeLockers());
    const report = placesFor(boat, ['strainer']);
    const printed = printedPlaces(report, boat);
    expect(placesSchema.parse(JSON.parse(JSON.stringify(printed)))).toEqual(JSON.parse(JSON.stringify(printed)));
    for (const answer of report.compartments) {
      const words = placeText(answer, boat);
      expect(words.decides).not.toMatch(/undefined|NaN|\[object/);
      expect(words.short.length).toBeLessThanOrEqual(16);
    }
  });

  it('is the same in any order of the records, and of the mirrored boat', () => {
    const draft = threeLockers();
    const turned: BoatDraft = {
      ...draft,
      compartments: Object.fromEntries(Object.entries(draft.compartments ?? {}).reverse()),
      fixtures: Object.fromEntries(Object.entries(draft.fixtures ?? {}).reverse()),
      parts: Object.fromEntries(Object.entries(draft.parts ?? {}).reverse()),
      lines: Object.fromEntries(Object.entries(draft.lines ?? {}).reverse()),
    };
    expect(placesFor(boatOf(turned), ['strainer'])).toEqual(placesFor(boatOf(draft), ['strainer']));
    const verdicts = (boat: BoatDraft) =>
      Object.entries(answersFor(boatOf(boat), ['strainer']))
        .map(([id, { verdict, decides }]) => [id, verdict, decides])
        .sort();
    const flat = { ...draft, lines: {}, arrangements: { first: { name: 'First' } } };
    expect(verdicts(mirrored(flat))).toEqual(verdicts(flat));
  });

  it('names a part that is not there, or that a group does not hold in its place', () => {
    const boat = lockers();
    expect(() => placesFor(boat, ['nothing'])).toThrow(NoSuchGroup);
    expect(() => placesFor(boat, ['nothing'])).toThrow('parts.nothing');
    expect(() =>
      placesFor(boatOf({ ...threeLockers(), arrangements: { first: { name: 'First' } } }), ['strainer', 'pump']),
    ).toThrow('not placed');
  });

  it('moves a group with its offsets', () => {
    const boat = boatOf({ ...threeLockers(), lines: {} });
    const { strainer, pump } = boat.arrangements.first?.places ?? {};
    const answer = answersFor(boat, ['strainer', 'pump']);
    for (const { best } of Object.values(answer)) {
      if (!best) continue;
      const [a, b] = [best.poses.strainer, best.poses.pump];
      const off = (p: readonly number[] | undefined, q: readonly number[] | undefined) =>
        Math.hypot(...[0, 1, 2].map((k) => (p?.[k] ?? 0) - (q?.[k] ?? 0)));
      expect(off(a?.at, b?.at)).toBeCloseTo(off(strainer?.at, pump?.at), 5);
    }
  });
});

describe('a place that is proposed', () => {
  it('settles, applied and judged from cold, with the verdict that was promised', () => {
    const asked = new AskedBoat('three lockers', boatOf(threeLockers()));
    const proposals = ['strainer', 'pump'].flatMap((part) => asked.proposals(part));
    expect(proposals.length).toBeGreaterThan(2);
    for (const proposal of proposals) expectKept(proposal, asked);
  });
});
