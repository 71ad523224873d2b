import { freeId } from '@core/boat/edits';
import type { Boat, RunState } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { AngleField } from '../fields/LengthField';
import { RemoveButton } from '../fields/RemoveButton';
import { Choice } from '../inspector/parts';
import { sentence } from '../words';

const USES: readonly (readonly [RunState['use'], string])[] = [
  ['anchored', 'At anchor'],
  ['motoring', 'Motoring'],
  ['sailing', 'Sailing'],
];
const SIDES: readonly (readonly [RunState['sideDown'], string])[] = [
  ['both', 'Both tacks'],
  ['starboard', 'Port tack'],
  ['port', 'Starboard tack'],
];
/** What a further state begins with: the heel at which most owners stop making water. Common practice, no source. */
const USUAL_HEEL_DEG = 15;

/** When the set is run, and to how much heel: a hole is asked for no more than that. */
export function RunStates({ boat }: { readonly boat: Boat }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const states = Object.entries(boat.runStates);
  const set = (id: string, change: Partial<RunState>): boolean =>
    edit('When the set runs', (draft) => {
      const state = draft.runStates[id];
      if (state) Object.assign(state, change);
    });
  return (
    <div className="run-states">
      <h4>The set runs</h4>
      {states.length === 0 ? <p className="quiet">At anchor, upright.</p> : null}
      {states.map(([id, state]) => (
        <div className="run-state-row" key={id}>
          <Choice
            label={`What the boat does: ${state.name}`}
            value={state.use}
            options={USES}
            choose={(use) => set(id, { use, name: nameAfter(state, use) })}
          />
          <AngleField
            label={`Greatest heel: ${state.name}`}
            value={state.heelDeg}
            commit={(heelDeg) => set(id, { heelDeg: Math.abs(heelDeg) })}
          />
          <Choice
            label={`Tack: ${state.name}`}
            value={state.sideDown}
            options={SIDES}
            choose={(sideDown) => set(id, { sideDown })}
          />
          <RemoveButton
            label={`Remove ${state.name}`}
            remove={() =>
              edit(`Remove ${state.name}`, (draft) => {
                delete draft.runStates[id];
              })
            }
          />
        </div>
      ))}
      <div className="actions">
        <button
          type="button"
          className="button plain"
          onClick={() =>
            edit('Add a state in which the set runs', (draft) => {
              draft.runStates[freeId(draft.runStates, 'sailing')] = {
                name: 'Sailing',
                use: 'sailing',
                heelDeg: USUAL_HEEL_DEG,
                sideDown: 'both',
                trimDeg: 0,
              };
            })
          }
        >
          Add a state
        </button>
      </div>
    </div>
  );
}

/** A name that only repeated the use follows it; one of the owner's own stays. */
function nameAfter(state: RunState, use: RunState['use']): string {
  const own = USES.every(([, words]) => words !== state.name) && state.name !== sentence(state.use);
  return own ? state.name : (USES.find(([key]) => key === use)?.[1] ?? state.name);
}
