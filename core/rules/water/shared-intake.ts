import { drawersOf, drawnLMin, setIntakes } from '../../assess/water/intakes';
import { speedOf } from '../../base/formulas/pipe-flow';
import { SET_PUMPS } from '../../boat/kinds';
import { countedFaults } from '../counted';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { nameOf } from '../name-of';

/** Speed in a shared bore above which the weaker pump goes short, and beside an engine, whose pump is the stronger, m/s. From memory. */
const LIMITS = inBoth({ speedMS: 1, besideEngineMS: 0.5 });

/** Two that draw through one hole take water from each other: an engine goes hot, a set draws air out of the other’s hose. */
export const sharedIntake = defineRule({
  id: 'water/shared-intake',
  question: 'Does the intake give enough for all who draw through it at a time?',
  sources: [
    { key: 'practice', standing: 'commonPractice' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  limits: LIMITS,
  cannotSee: ['How strong each pump draws.', 'Weed on the grating.', 'Who runs what at the same time.'],
  hazards: ['hullHole'],
  subjects: (facts) => setIntakes(facts.circuit()),
  check(intakeId, facts): readonly Verdict[] {
    const circuit = facts.circuit();
    const intake = facts.thing(intakeId);
    const boreM = intake?.opensToSea?.boreM;
    if (!intake || boreM === undefined) return [{ outcome: 'notApplicable', reason: 'noHole' }];
    const drawers = drawersOf(circuit, intakeId);
    const set = drawers.filter((id) => SET_PUMPS.has(facts.thing(id)?.kind ?? ''));
    const others = drawers.filter((id) => !set.includes(id));
    const named = (intake.sharedBy ?? []).filter((by) => !others.some((id) => isNamed(by, id, facts)));
    if (others.length + named.length === 0) return [{ outcome: 'notApplicable', reason: 'alone' }];
    const isEngine = (id: string): boolean => facts.thing(id)?.kind === 'engine';
    const states = Object.values(facts.runStates());
    const isMotoring = states.some(({ use }) => use === 'motoring');
    // An engine charges at anchor too: that it stands while the set runs has to be kept in mind, so it counts with the others.
    const withEngine = others.some(isEngine) || named.some((by) => /engine/i.test(by));
    const users = [...others.map((id) => nameOf(id, facts)), ...named].join(', ');
    const related = [...others, ...set];
    const at = facts.pose(intakeId)?.at ?? null;
    const lacks = [...others, ...set].find((id) => drawnLMin(circuit, id) === null);
    if (lacks !== undefined || named.length > 0) {
      const said = {
        related,
        at,
        data: { users, lacks: lacks === undefined ? '' : nameOf(lacks, facts), speedMS: null },
      };
      if (withEngine && isMotoring)
        return [{ outcome: 'fail', severity: 'fault', reason: 'engineStarves', ...countedFaults(1), ...said }];
      return [{ outcome: 'fail', severity: 'advice', reason: 'shared', ...countedFaults(1), ...said }];
    }
    const { speedMS, besideEngineMS } = LIMITS[facts.profile()];
    const totalLMin = [...others, ...set].reduce((sum, id) => sum + (drawnLMin(circuit, id) ?? 0), 0);
    const mostLMin = (withEngine ? besideEngineMS : speedMS) / speedOf(1, boreM);
    const compared = {
      measured: { value: totalLMin, unit: 'LMin' },
      limit: { value: mostLMin, unit: 'LMin', bound: 'atMost' },
    } as const;
    const said = { ...compared, related, at, data: { users, lacks: '', speedMS: speedOf(totalLMin, boreM) } };
    if (totalLMin <= mostLMin) return [{ outcome: 'pass', ...said }];
    if (withEngine && isMotoring) return [{ outcome: 'fail', severity: 'fault', reason: 'engineStarves', ...said }];
    return [{ outcome: 'fail', severity: 'advice', reason: 'shared', ...said }];
  },
});

const isNamed = (by: string, id: string, facts: Facts): boolean => {
  const thing = facts.thing(id);
  const words = by.toLowerCase();
  return (
    words === id.toLowerCase() ||
    (thing !== null && (words === thing.name.toLowerCase() || words.includes(thing.kind.toLowerCase())))
  );
};
