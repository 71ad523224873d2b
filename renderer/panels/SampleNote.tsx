import type { JSX } from 'react';
import { commandOf, give } from '../app/commands';
import { hasUnsaved, useApp } from '../store/app';
import { Panel } from './inspector/parts';

const DOORS = [
  ['door-ten-minutes', 'Ten minutes'],
  ['door-one-locker', 'One locker'],
  ['new-empty', 'Empty boat'],
] as const;

/** Whoever comes for the first time finds a boat that is not theirs: what it is, and the ways to their own. */
export function SampleNote(): JSX.Element | null {
  const isLooking = useApp((state) => state.document.isSample && !hasUnsaved(state));
  if (!isLooking) return null;
  return (
    <Panel title="A sample, to look around in" level={2}>
      <p className="sub">Begin with your own:</p>
      <div className="actions ways-short">
        {DOORS.map(([id, words]) => (
          <button
            key={id}
            type="button"
            className="button"
            onClick={() => {
              const command = commandOf(id);
              if (command) give(command);
            }}
          >
            {words}
          </button>
        ))}
      </div>
    </Panel>
  );
}
