import { Fragment, type JSX } from 'react';
import { sentence } from '../panels/words';
import { useApp } from '../store/app';
import type { Layers, Tool } from '../store/types';
import { CommandButton } from './CommandButton';
import { commandOf } from './commands';
import { ICONS } from './icons';

const TOOLS: readonly (readonly (Tool & keyof typeof ICONS)[])[] = [
  ['select', 'pan', 'section', 'join', 'measure'],
  ['rectangle', 'polygon', 'split', 'opening', 'surface', 'hole', 'standing'],
];

const LAYERS: readonly (keyof Layers & keyof typeof ICONS)[] = ['names', 'service', 'sweeps', 'heeled'];

/** The words of a command without what a toolbar says anyway. */
const wordsOf = (id: string): string =>
  sentence((commandOf(id)?.words ?? id).replace(/^Tool: /, '').replace(/ on or off$/, ''));

/** Tools of the pointer, then what the drawing shows. */
export function Rail(): JSX.Element {
  const tool = useApp((state) => state.tool);
  const layers = useApp((state) => state.layers);
  return (
    <nav className="rail-area" aria-label="Tools">
      <div className="rail" role="toolbar" aria-label="Tools" aria-orientation="vertical">
        {TOOLS.map((group) => (
          <Fragment key={group[0]}>
            {group.map((name) => (
              <CommandButton
                key={name}
                id={`tool-${name}`}
                className="icon-button"
                label={wordsOf(`tool-${name}`)}
                pressed={tool === name}
              >
                {ICONS[name]}
              </CommandButton>
            ))}
            <hr />
          </Fragment>
        ))}
        {LAYERS.map((name) => (
          <CommandButton
            key={name}
            id={`layer-${name}`}
            className="icon-button layer"
            label={wordsOf(`layer-${name}`)}
            pressed={layers[name]}
          >
            {ICONS[name]}
          </CommandButton>
        ))}
      </div>
    </nav>
  );
}
