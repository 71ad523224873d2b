import type { FailedFinding, Mend } from './mend';

/** A ball valve on a through-hull that has none, shut while nobody needs it, and labelled: a pump must not be started against it. */
export const fitSeacock = ({ subject }: FailedFinding): readonly Mend[] => [
  {
    id: 'seacock',
    change: 'add',
    what: { item: 'seacock', to: subject },
    recipe: (boat) => {
      const thing = boat.fixtures[subject] ?? boat.parts[subject];
      if (thing) thing.valve = { kind: 'ball', states: ['open', 'shut'], normally: 'shut', labelled: true };
    },
  },
];
