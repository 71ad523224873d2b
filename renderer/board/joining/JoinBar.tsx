import { LINE_KINDS, lineKindOf } from '@core/boat/catalogue/line-kinds';
import { joinOf, type PortAt } from '@core/boat/joins';
import type { Boat, Medium } from '@core/boat/schema/boat';
import { joinRefusalText, portText } from '@core/output/text/join-text';
import { type JSX, useEffect } from 'react';
import { MEDIUM_WORDS, mediumText } from '../../panels/words';
import { useApp } from '../../store/app';
import { chosenThings } from '../../store/chosen';
import { dropJoin, finishJoin, judgedJoin, useJoining } from '../../store/joining';
import { thingOf, thingsOf } from '../../store/select';

const keyOf = (at: PortAt | null): string => (at ? `${at.thing}/${at.port}` : '');
function portOf(key: string): PortAt | null {
  const [thing = '', port = ''] = key.split('/');
  return thing === '' ? null : { thing, port };
}

/** Every port of the boat, in the order of the parts table. */
const portsOf = (boat: Boat): readonly PortAt[] =>
  thingsOf(boat).flatMap(({ id, thing }) => Object.keys(thing.ports).map((port) => ({ thing: id, port })));

const isFree = (boat: Boat, { thing, port }: PortAt): boolean =>
  !Object.values(boat.lines).some(({ from, to }) => [from, to].some((end) => end.thing === thing && end.port === port));

/** A strip at the foot of the drawing while a line is led from port to port: both ports by name, what it will be made of, or why not. */
export function JoinBar(): JSX.Element | null {
  const boat = useApp((s) => s.boat);
  const tool = useApp((s) => s.tool);
  const setTool = useApp((s) => s.setTool);
  const from = useJoining((s) => s.from);
  const isTool = tool === 'join';
  useEffect(() => {
    if (isTool) beginAtPicked();
    else dropJoin();
  }, [isTool]);
  if (!boat || (!isTool && from === null)) return null;
  const done = (): void => {
    dropJoin();
    setTool('select');
  };
  return (
    <section
      className="drawing-bar"
      aria-label="Join two ports"
      data-testid="join-bar"
      onKeyDown={(event) => {
        if (event.key === 'Escape') done();
      }}
    >
      <div className="drawing-hint">
        <p>
          <b className="drawing-word">Join</b> Drag from a port to a port, or choose both here.
        </p>
        <Verdict boat={boat} />
        <button type="button" className="button plain" onClick={done}>
          Done
        </button>
      </div>
      <Ends boat={boat} />
    </section>
  );
}

/** What will flow in it, or why the two cannot be joined. */
function Verdict({ boat }: { readonly boat: Boat }): JSX.Element {
  const arrangementId = useApp((s) => s.arrangementId);
  const joined = judgedJoin(boat, arrangementId, useJoining());
  return (
    <output className="drawing-reading" aria-live="polite">
      {joined === null ? (
        ''
      ) : joined.ok ? (
        <b>
          {MEDIUM_WORDS[joined.join.medium]}
          {joined.join.currentA === null ? '' : `, ${joined.join.currentA} A`}
        </b>
      ) : (
        <span className="bad">{joinRefusalText(boat, joined.refusal)}</span>
      )}
    </output>
  );
}

/** The first free port of the picked thing is where one begins. */
function beginAtPicked(): void {
  const { boat } = useApp.getState();
  const picked = chosenThings().at(-1);
  if (!boat || picked === undefined || useJoining.getState().from !== null) return;
  const free = portsOf(boat).find((port) => port.thing === picked && isFree(boat, port));
  if (free) useJoining.setState({ from: free, moving: null, over: null, kind: null });
}

function Ends({ boat }: { readonly boat: Boat }): JSX.Element {
  const arrangementId = useApp((s) => s.arrangementId);
  const state = useJoining();
  const { from, over, moving } = state;
  const ports = portsOf(boat);
  const joined = judgedJoin(boat, arrangementId, state);
  const targets = from
    ? ports.map((port) => [port, joinOf(boat, arrangementId, from, port, moving?.line ?? null).ok] as const)
    : [];
  return (
    <div className="drawing-numbers">
      <label className="drawing-field">
        <span>From</span>
        <span className="field">
          <select
            aria-label="From port"
            value={keyOf(from)}
            disabled={moving !== null}
            onChange={(event) => useJoining.setState({ from: portOf(event.target.value), over: null, kind: null })}
          >
            <option value="">Choose a port</option>
            {ports.map((port) => (
              <option key={keyOf(port)} value={keyOf(port)}>
                {wordsOf(boat, port)}
              </option>
            ))}
          </select>
        </span>
      </label>
      <label className="drawing-field">
        <span>To</span>
        <span className="field">
          <select
            aria-label="To port"
            value={keyOf(over)}
            disabled={from === null}
            onChange={(event) => useJoining.setState({ over: portOf(event.target.value), kind: null })}
          >
            <option value="">Choose a port</option>
            {([true, false] as const).map((legal) => (
              <optgroup key={String(legal)} label={legal ? 'Can be joined' : 'Cannot be joined'}>
                {targets
                  .filter(([, ok]) => ok === legal)
                  .map(([port]) => (
                    <option key={keyOf(port)} value={keyOf(port)}>
                      {wordsOf(boat, port)}
                    </option>
                  ))}
              </optgroup>
            ))}
          </select>
        </span>
      </label>
      {joined?.ok && moving === null ? (
        <Kind boat={boat} medium={joined.join.medium} proposed={joined.join.kind} />
      ) : null}
      <button type="button" className="button" disabled={!joined?.ok} onClick={() => finishJoin()}>
        {moving ? 'Lead it there' : 'Join'}
      </button>
    </div>
  );
}

/** Hose for water, tube for made water, cable for current: the proposed kind first. */
function Kind({
  boat,
  medium,
  proposed,
}: {
  readonly boat: Boat;
  readonly medium: Medium;
  readonly proposed: string;
}): JSX.Element {
  const kind = useJoining((s) => s.kind);
  const isCable = medium === 'dcPower' || medium === 'signal';
  const kinds = Object.entries({ ...LINE_KINDS, ...boat.lineKinds }).filter(
    ([, { what }]) => (what === 'cable') === isCable,
  );
  return (
    <label className="drawing-field">
      <span>Of</span>
      <span className="field">
        <select
          aria-label="Kind of the line"
          value={kind ?? proposed}
          onChange={(event) => useJoining.setState({ kind: event.target.value })}
        >
          <option value={proposed}>{`${lineKindOf(boat.lineKinds, proposed)?.name ?? proposed} (proposed)`}</option>
          {kinds
            .filter(([id]) => id !== proposed)
            .map(([id, { name }]) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
        </select>
      </span>
    </label>
  );
}

function wordsOf(boat: Boat, port: PortAt): string {
  const medium = thingOf(boat, port.thing)?.ports[port.port]?.medium;
  const content = medium === undefined ? '' : `, ${mediumText(medium)}`;
  return `${portText(boat, port)}${content}`;
}
