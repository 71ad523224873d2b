import type { FailedFinding, Mend } from './mend';

/** A cover over electrics that are open to water from above: those that the failure names. */
export const fitCover = ({ data }: FailedFinding): readonly Mend[] => {
  const id = typeof data.electrics === 'string' ? data.electrics : '';
  return [
    {
      id: `cover/${id}`,
      change: 'add',
      what: { item: 'dripCover', to: id },
      recipe: (boat) => {
        const thing = boat.fixtures[id] ?? boat.parts[id];
        if (thing) thing.electric = { ...thing.electric, dripProof: 'dripProof' };
      },
    },
  ];
};
