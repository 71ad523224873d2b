import type { JSX } from 'react';
import { CommandButton } from '../app/CommandButton';
import { commandOf } from '../app/commands';
import { ICONS } from '../app/icons';
import { useApp } from '../store/app';
import { chosenThings, chosenWords, countWords } from '../store/chosen';
import { useDrag } from '../store/drag';
import { usePlacing } from '../store/placing';
import { chosenOf, thingOf } from '../store/select';
import type { Selection } from '../store/types';

const ARRANGE = [
  'line-up-left',
  'line-up-middle-across',
  'line-up-right',
  'line-up-top',
  'line-up-middle-up',
  'line-up-bottom',
  'space-out-across',
  'space-out-up',
] as const satisfies readonly (keyof typeof ICONS)[];

const ACTS: readonly (readonly [string, string])[] = [
  ['copy', 'Copy'],
  ['duplicate', 'Duplicate'],
  ['delete-selected', 'Delete'],
];

/** A strip at the foot of the drawing while several things are picked: what they are, and what is done with all of them. */
export function PickedBar(): JSX.Element | null {
  const boat = useApp((s) => s.boat);
  const tool = useApp((s) => s.tool);
  const view = useApp((s) => s.activeView);
  const selection = useApp((s) => s.selection);
  const alsoSelected = useApp((s) => s.alsoSelected);
  const isHeld = useDrag((s) => s.thingId !== null);
  const isPlacing = usePlacing((s) => s.parts.length > 0);
  if (isPlacing || !boat || alsoSelected.length === 0 || tool !== 'select' || isHeld) return null;
  const chosen = chosenOf({ selection, alsoSelected });
  return (
    <section className="drawing-bar picked-bar" aria-label="Things that are picked" data-testid="picked-bar">
      <p>
        <b className="drawing-word">{`${chosen.length} picked`}</b>
        {`${chosenWords(boat, chosen)}. ${countWords(boat, chosen)}`}
      </p>
      {chosenThings(chosen).length > 1 ? (
        <div className="acts" role="toolbar" aria-label={`Line up in the ${view === 'detail' ? 'plan' : view}`}>
          {ARRANGE.map((id) => (
            <CommandButton key={id} id={id} className="icon-button small" label={commandOf(id)?.words ?? id}>
              {ICONS[id]}
            </CommandButton>
          ))}
        </div>
      ) : null}
      <div className="acts">
        <CommandButton id="where-can-it-go" className="button plain">
          Where can they go?
        </CommandButton>
        <Together chosen={chosen} />
        {ACTS.map(([id, words]) => (
          <CommandButton key={id} id={id} className="button plain">
            {words}
          </CommandButton>
        ))}
      </div>
    </section>
  );
}

/** One button: what stays together may go apart, what does not may be kept together. */
function Together({ chosen }: { readonly chosen: readonly Selection[] }): JSX.Element {
  const isOne = useApp(({ boat }) => {
    const groups = new Set(chosenThings(chosen).map((id) => (boat ? thingOf(boat, id)?.group : undefined)));
    return groups.size === 1 && !groups.has(undefined);
  });
  return (
    <CommandButton id={isOne ? 'let-apart' : 'keep-together'} className="button plain">
      {isOne ? 'Let go apart' : 'Keep together'}
    </CommandButton>
  );
}
