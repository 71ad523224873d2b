import { flushWays } from '../../assess/water/fresh';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import { nameOf } from '../name-of';

/** Chlorine of shore water, or of a tank that was disinfected, eats the skin of the membrane: what it spoils is the dearest part. */
export const flushChlorine = defineRule({
  id: 'water/flush-chlorine',
  question: 'Does fresh water that flushes the membrane always pass a carbon filter, or never hold chlorine?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  gravest: 'danger',
  cannotSee: ['What is really in the tank.', 'How old the carbon cartridge is: it is spent after about half a year.'],
  hazards: ['drinkingWater'],
  subjects: (facts) => [...new Set(flushWays(facts.circuit()).map(({ goal }) => goal))],
  check(goal, facts): readonly Verdict[] {
    return flushWays(facts.circuit())
      .filter((way) => way.goal === goal)
      .map(({ source, way, bare, carbon, isChlorineFree }): Verdict => {
        const said = {
          instance: source,
          data: { source: nameOf(source, facts), carbon: carbon.map((id) => nameOf(id, facts)).join(', ') },
        };
        if (bare === null || isChlorineFree)
          return { outcome: 'pass', ...countedFaults(0), related: way.filter((id) => id !== goal), ...said };
        const related = bare.filter((id) => id !== goal);
        // What nobody filled with made water is taken as town water; that a tank is declared to hold chlorine makes it sure.
        const isDeclared = facts.thing(source)?.chlorineFree === false;
        const severity = isDeclared || facts.thing(source)?.kind !== 'waterTank' ? 'danger' : 'fault';
        // A carbon filter that can be passed by is no graver than none.
        const reason = carbon.length > 0 ? 'pastCarbon' : 'noCarbon';
        return { outcome: 'fail', severity, reason, ...countedFaults(1), related, ...said };
      });
  },
});
