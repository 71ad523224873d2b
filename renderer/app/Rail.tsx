import { Fragment, type JSX } from 'react';
import { useApp } from '../store/app';
import type { Layers, Tool } from '../store/types';
import { ICONS } from './icons';

const TOOLS: readonly (readonly [Tool & keyof typeof ICONS, string])[] = [
  ['select', 'Select and move'],
  ['pan', 'Move the sheet'],
  ['section', 'Move the section'],
];

const DRAWING: readonly (readonly [Tool & keyof typeof ICONS, string])[] = [
  ['rectangle', 'Draw a rectangular compartment'],
  ['polygon', 'Draw a compartment corner by corner'],
  ['split', 'Split a compartment'],
  ['opening', 'Draw an opening on a face'],
  ['surface', 'Draw a mounting surface on a face'],
  ['hole', 'Add a hole to a panel'],
  ['standing', 'Set a standing place'],
  ['measure', 'Measure a distance'],
];

const LAYERS: readonly (readonly [keyof Layers & keyof typeof ICONS, string])[] = [
  ['names', 'Names of compartments'],
  ['service', 'Room for service'],
  ['sweeps', 'Moving sweeps'],
  ['heeled', 'Heeled waterline'],
];

/** Tools of the pointer, then what the drawing shows. */
export function Rail(): JSX.Element {
  const tool = useApp((state) => state.tool);
  const setTool = useApp((state) => state.setTool);
  const layers = useApp((state) => state.layers);
  const setLayer = useApp((state) => state.setLayer);
  return (
    <div className="rail" role="toolbar" aria-label="Tools" aria-orientation="vertical">
      {[TOOLS, DRAWING].map((group) => (
        <Fragment key={group[0]?.[0]}>
          {group.map(([name, words]) => (
            <button
              key={name}
              type="button"
              className="icon-button"
              aria-label={words}
              title={words}
              aria-pressed={tool === name}
              onClick={() => setTool(name)}
            >
              {ICONS[name]}
            </button>
          ))}
          <hr />
        </Fragment>
      ))}
      {LAYERS.map(([name, words]) => (
        <button
          key={name}
          type="button"
          className="icon-button layer"
          aria-label={words}
          title={words}
          aria-pressed={layers[name]}
          onClick={() => setLayer(name, !layers[name])}
        >
          {ICONS[name]}
        </button>
      ))}
    </div>
  );
}
