import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { freeId, lineAdded } from '@core/boat/edits';
import { joinOf } from '@core/boat/joins';
import type { Boat, Line, Medium } from '@core/boat/schema/boat';
import { MEDIA } from '@core/boat/schema/ports';
import { joinRefusalText } from '@core/output/text/join-text';
import { type JSX, useState } from 'react';
import { useApp } from '../../store/app';
import { markOf, thingOf, thingsOf } from '../../store/select';
import { Choice, Labelled, Panel } from '../inspector/parts';
import { MEDIUM_WORDS, mediumText, plainWords } from '../words';

/** The wish for a new run: from one port to another, in a kind of hose, tube or cable. Begins with what is still free. */
export function AddLine({ boat }: { readonly boat: Boat }): JSX.Element | null {
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const arrangementId = useApp((state) => state.arrangementId);
  const ports = portsOf(boat);
  const [from, setFrom] = useState(() => ports.find(([port]) => isFree(boat, port))?.[0] ?? ports[0]?.[0] ?? '');
  const [pickedTo, setTo] = useState<string | null>(null);
  const [pickedKind, setKind] = useState<string | null>(null);
  const [pickedMedium, setMedium] = useState<Medium | null>(null);
  if (ports.length < 2) return null;
  const medium = pickedMedium ?? mediumAt(boat, from) ?? 'seaWater';
  const to = pickedTo ?? partnerOf(boat, from, medium, ports) ?? '';
  const kinds = Object.entries({ ...LINE_KINDS, ...boat.lineKinds })
    .filter(([, data]) => (data.what === 'cable') === isCable(medium))
    .map(([id, data]) => [id, data.name] as const);
  const joined = to === '' || from === to ? null : joinOf(boat, arrangementId, endOf(from), endOf(to));
  const usual = joined?.ok ? joined.join.kind : undefined;
  const isOffered = (id: string | null | undefined): boolean => kinds.some(([known]) => known === id);
  const kind = (isOffered(pickedKind) ? pickedKind : isOffered(usual) ? usual : kinds[0]?.[0]) ?? '';

  const add = (): void => {
    const ends = { from: endOf(from), to: endOf(to) };
    const id = freeId(boat.lines, 'line');
    const markAt = ({ thing }: { readonly thing: string }): string => markOf(thing, thingOf(boat, thing));
    const name = `${markAt(ends.from)} to ${markAt(ends.to)}`;
    const currentA = joined?.ok ? joined.join.currentA : null;
    const line: Line = {
      name,
      kind,
      medium,
      ...ends,
      ...(currentA === null ? {} : { currentA }),
      ends: {},
      existing: false,
    };
    if (edit(`Add ${name}`, lineAdded(id, line))) select({ kind: 'line', id });
  };

  return (
    <Panel title="Add a line" level={3}>
      <Labelled label="From">
        <Choice
          label="From port of the new line"
          value={from}
          options={ports}
          choose={(port) => {
            setFrom(port);
            setTo(null);
            setMedium(null);
          }}
        />
      </Labelled>
      <Labelled label="To">
        <Choice label="To port of the new line" value={to} options={ports} choose={setTo} />
      </Labelled>
      <Labelled label="Content">
        <Choice<Medium>
          label="Content of the new line"
          value={medium}
          options={MEDIA.map((content) => [content, MEDIUM_WORDS[content]] as const)}
          choose={setMedium}
        />
      </Labelled>
      <Labelled label="Kind">
        <Choice label="Kind of the new line" value={kind} options={kinds} choose={setKind} />
      </Labelled>
      {joined && !joined.ok ? <p className="quiet">{joinRefusalText(boat, joined.refusal)}</p> : null}
      <div className="actions">
        <button type="button" className="button" disabled={from === to || to === '' || kind === ''} onClick={add}>
          Add
        </button>
      </div>
    </Panel>
  );
}

const endOf = (written: string): { thing: string; port: string } => {
  const [thing = '', port = ''] = written.split('/');
  return { thing, port };
};

/** Every port as `thing/port` with its words, in the order of the parts table. */
export const portsOf = (boat: Boat): (readonly [string, string])[] =>
  thingsOf(boat).flatMap(({ id, thing }) =>
    Object.entries(thing.ports).map(([port, { medium }]) => {
      const content = medium === undefined ? '' : `, ${mediumText(medium)}`;
      return [`${id}/${port}`, `${markOf(id, thing)} ${plainWords(port)}${content}`] as const;
    }),
  );

const mediumAt = (boat: Boat, port: string): Medium | undefined => {
  const [thing = '', name = ''] = port.split('/');
  return thingOf(boat, thing)?.ports[name]?.medium;
};

const isFree = (boat: Boat, port: string): boolean =>
  !Object.values(boat.lines).some((line) => [line.from, line.to].some((end) => `${end.thing}/${end.port}` === port));

const isCable = (medium: Medium): boolean => medium === 'dcPower' || medium === 'signal';

/** A port on another thing that the same content may go to, a free one if there is one. */
function partnerOf(
  boat: Boat,
  from: string,
  medium: Medium,
  ports: readonly (readonly [string, string])[],
): string | undefined {
  const [thing = ''] = from.split('/');
  const fitting = ports
    .map(([port]) => port)
    .filter((port) => !port.startsWith(`${thing}/`) && mediumAt(boat, port) === medium);
  return fitting.find((port) => isFree(boat, port)) ?? fitting[0];
}
