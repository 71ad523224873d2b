import { sameValue } from '../boat/schema-walk';
import type { HeeledWater } from '../rules/facts';
import { heeled, referenceAttitude, trimmed } from '../shape/hull/attitude';
import type { Attitude } from '../shape/hull/types';
import { hull } from './shape-stages';
import { accuracy, compartmentData, greatestHeel, reference, runStates, weights } from './source';
import { type ComputedStage, identical, type Read } from './store';

/** How the boat floats, from measured freeboards or level marks, else from the mass entered. */
export const attitude: ComputedStage<Attitude> = {
  id: 'attitude',
  compute: (_, read) => {
    const grades = read(accuracy);
    const mass = read(weights);
    const boat = {
      reference: read(reference),
      accuracy: grades.accuracy,
      ...(grades.gradeOf ? { gradeOf: grades.gradeOf } : {}),
      ...(mass ? { weights: mass } : {}),
    };
    return referenceAttitude(boat, read(hull));
  },
  same: sameValue,
};

/** Half-way between the aftmost and the foremost corner of the compartments, metres along x: what a boat without a hull trims about. */
const middle: ComputedStage<number> = {
  id: 'middleOfDrawn',
  compute: (_, read) => {
    const alongM = Object.values(read(compartmentData)).flatMap(({ view, outline, rangeM }) =>
      view === 'section' ? rangeM : outline.map(([x]) => x),
    );
    return alongM.length === 0 ? 0 : (Math.min(...alongM) + Math.max(...alongM)) / 2;
  },
  same: identical,
};

/** Key: `TACK|HEEL|BOW DOWN`. The heel costs a floating position, so it is worked out once for all who ask. */
const water: ComputedStage<HeeledWater['water']> = {
  id: 'water',
  compute: (key, read) => {
    const [tack, heelDeg, bowDownDeg] = key.split('|');
    const { up, levelM } = read(attitude);
    const water =
      Number(bowDownDeg) === 0 ? { up, levelM } : trimmed({ up, levelM }, Number(bowDownDeg), read(hull), read(middle));
    if (tack === 'upright') return water;
    return heeled(water, Number(heelDeg), tack === 'port' ? 'port' : 'starboard', read(hull));
  },
  same: sameValue,
};

const heeledWater = (
  read: Read,
  id: string,
  name: string,
  heelDeg: number,
  down: HeeledWater['down'],
  trimDeg: number,
): HeeledWater => ({
  id: down === 'upright' ? id : `${id}/${down}`,
  name,
  heelDeg: down === 'upright' ? 0 : heelDeg,
  down,
  trimDeg,
  water: read(water, `${down}|${down === 'upright' ? 0 : heelDeg}|${trimDeg}`),
});

const UPRIGHT = ['upright'] as const;

/** Waters of the states in which the set is run; without any: at anchor, upright. */
export const runningWaters: ComputedStage<readonly HeeledWater[]> = {
  id: 'runningWaters',
  compute: (_, read) => {
    const states = Object.entries(read(runStates)).sort(([a], [b]) => (a < b ? -1 : 1));
    if (states.length === 0) return [heeledWater(read, 'atAnchor', 'At anchor', 0, 'upright', 0)];
    return states.flatMap(([id, state]) => {
      const sides =
        state.heelDeg === 0 ? UPRIGHT : state.sideDown === 'both' ? (['port', 'starboard'] as const) : [state.sideDown];
      const waters = state.heelDeg === 0 ? sides : [...UPRIGHT, ...sides];
      return waters.map((down) => heeledWater(read, id, state.name, state.heelDeg, down, state.trimDeg));
    });
  },
  same: sameValue,
};

/** Waters for which through-hulls and joints are judged: upright and at the greatest heel with either side down, that of a run-state if it heels more. */
export const greatestHeelWaters: ComputedStage<readonly HeeledWater[]> = {
  id: 'greatestHeelWaters',
  compute: (_, read) => {
    const heelDeg = Math.max(read(greatestHeel), ...Object.values(read(runStates)).map((state) => state.heelDeg));
    const sides = heelDeg === 0 ? UPRIGHT : (['upright', 'port', 'starboard'] as const);
    return sides.map((down) =>
      heeledWater(read, 'greatestHeel', down === 'upright' ? 'Upright' : 'Greatest heel', heelDeg, down, 0),
    );
  },
  same: sameValue,
};
