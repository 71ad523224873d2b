import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { lineDeleted, lineEndSet } from '@core/boat/edits';
import type { Boat, Line } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { markOf } from '../../store/select';
import { portsOf } from '../stages/AddLine';
import { MEDIUM_WORDS } from '../words';
import { ClipPoints } from './ClipPoints';
import { Demands } from './line/Demands';
import { EndFittings } from './line/EndFittings';
import { KindData } from './line/KindData';
import { Supplied } from './line/Supplied';
import { Choice, Labelled, Panel } from './parts';
import { RunPanel } from './run/RunPanel';

/** A line as wished and the run that answers it. */
export function LineInspector({
  boat,
  id,
  line,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly line: Line;
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const mark = markOf(id, line);
  const kinds: (readonly [string, string])[] = Object.entries({ ...LINE_KINDS, ...boat.lineKinds }).map(
    ([key, data]) => [key, data.name],
  );
  return (
    <>
      <Panel title={`${mark}  ${line.name}`} aside={MEDIUM_WORDS[line.medium]}>
        <Labelled label="Kind">
          <Choice
            label="Kind of hose, tube or cable"
            value={line.kind}
            options={kinds}
            choose={(value) =>
              edit(`Kind of ${mark}`, (draft) => {
                const wish = draft.lines[id];
                if (wish) wish.kind = value;
              })
            }
          />
        </Labelled>
        <EndChoice boat={boat} id={id} line={line} end="from" />
        <EndChoice boat={boat} id={id} line={line} end="to" />
        <Supplied id={id} line={line} />
        <div className="actions">
          <button
            type="button"
            className="button plain"
            onClick={() => {
              if (edit(`Remove ${mark}`, lineDeleted(id))) select(null);
            }}
          >
            Remove the line
          </button>
        </div>
      </Panel>
      <RunPanel boat={boat} id={id} />
      <ClipPoints boat={boat} lineId={id} mark={mark} />
      <Demands boat={boat} id={id} line={line} />
      <EndFittings boat={boat} id={id} line={line} />
      <KindData boat={boat} kind={line.kind} />
    </>
  );
}

function EndChoice({
  boat,
  id,
  line,
  end,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly line: Line;
  readonly end: 'from' | 'to';
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const here = line[end];
  return (
    <Labelled label={end === 'from' ? 'From' : 'To'}>
      <Choice
        label={end === 'from' ? 'From port' : 'To port'}
        value={`${here.thing}/${here.port}`}
        options={portsOf(boat)}
        choose={(value) => {
          const [thing, port] = value.split('/');
          if (thing !== undefined && port !== undefined)
            edit(`End of ${markOf(id, line)}`, lineEndSet(id, end, { thing, port }));
        }}
      />
    </Labelled>
  );
}
