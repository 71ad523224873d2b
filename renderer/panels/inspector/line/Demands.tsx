import type { Draft } from '@core/boat/edits';
import type { Boat, Line } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { arrangementOf, compartmentName, markOf } from '../../../store/select';
import { LengthField } from '../../fields/LengthField';
import { RemoveButton } from '../../fields/RemoveButton';
import { Choice, Labelled, Link, Panel } from '../parts';

interface Props {
  readonly boat: Boat;
  readonly id: string;
  readonly line: Line;
}

type Key = 'drains' | 'suction';
const ANSWERS = { usual: undefined, yes: true, no: false } as const;
type Answer = keyof typeof ANSWERS;
const answerOf = (value: boolean | undefined): Answer => (value === undefined ? 'usual' : value ? 'yes' : 'no');

/** What the run of a line has to do on its way: fall, rise, keep out of places. */
export function Demands({ boat, id, line }: Props): JSX.Element {
  const edit = useApp((state) => state.edit);
  const mark = markOf(id, line);
  const change = (label: string, recipe: (own: Draft<Line>) => void): boolean =>
    edit(`${label} of ${mark}`, (draft) => {
      const own = draft.lines[id];
      if (own) recipe(own);
    });
  const choose =
    (key: Key, label: string) =>
    (answer: Answer): boolean =>
      change(label, (own) => {
        const value = ANSWERS[answer];
        if (value === undefined) delete own[key];
        else own[key] = value;
      });
  const isWet = line.medium !== 'dcPower' && line.medium !== 'signal';
  return (
    <Panel title="On its way" level={3}>
      {isWet ? (
        <>
          <Labelled label="Empties">
            <Choice<Answer>
              label="Whether it empties by falling"
              value={answerOf(line.drains)}
              options={[
                ['usual', 'As usual for what it carries'],
                ['yes', 'By falling all the way'],
                ['no', 'Need not fall'],
              ]}
              choose={choose('drains', 'Fall')}
            />
          </Labelled>
          <Labelled label="Water is">
            <Choice<Answer>
              label="Whether the water in it is drawn or pushed"
              value={answerOf(line.suction)}
              options={[
                ['usual', 'As its pump stands'],
                ['yes', 'Drawn by a pump'],
                ['no', 'Pushed'],
              ]}
              choose={choose('suction', 'Suction')}
            />
          </Labelled>
          <Labelled label="Must rise to">
            <LengthField
              label="Height above the floating waterline that it must rise to"
              value={line.riseToM ?? null}
              placeholder="no height"
              commit={(riseToM) =>
                change('Rise', (own) => {
                  own.riseToM = riseToM;
                })
              }
              clear={() =>
                change('Rise', (own) => {
                  delete own.riseToM;
                })
              }
            />
          </Labelled>
          {line.riseToM === undefined ? null : (
            <p className="quiet">Above the floating waterline, somewhere on its way: a loop against siphoning.</p>
          )}
        </>
      ) : null}
      <KeepsOut boat={boat} id={id} mark={mark} />
    </Panel>
  );
}

/** Compartments that the run must not enter. */
function KeepsOut({
  boat,
  id,
  mark,
}: Pick<Props, 'boat' | 'id'> & {
  readonly mark: string;
}): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const { edit, select } = useApp.getState();
  const kept = arrangementOf(boat, arrangementId)?.forbidden?.[id] ?? [];
  const set = (label: string, next: readonly string[]): boolean =>
    edit(label, (draft) => {
      const arrangement = draft.arrangements[arrangementId ?? ''];
      if (!arrangement) return;
      const forbidden = arrangement.forbidden ?? {};
      if (next.length > 0) forbidden[id] = [...next];
      else delete forbidden[id];
      if (Object.keys(forbidden).length > 0) arrangement.forbidden = forbidden;
      else delete arrangement.forbidden;
    });
  const free = Object.keys(boat.compartments)
    .filter((compartment) => !kept.includes(compartment))
    .map((compartment) => [compartment, compartmentName(boat, compartment)] as const)
    .sort(([, a], [, b]) => a.localeCompare(b, 'en'));
  return (
    <>
      {kept.map((compartment) => (
        <Labelled key={compartment} label="Keeps out of">
          <div className="field-and-act">
            <span className="place">
              <Link go={() => select({ kind: 'compartment', id: compartment })}>
                {compartmentName(boat, compartment)}
              </Link>
            </span>
            <RemoveButton
              label={`Let ${mark} into ${compartmentName(boat, compartment)} again`}
              remove={() =>
                set(
                  `Let ${mark} into ${compartmentName(boat, compartment)}`,
                  kept.filter((other) => other !== compartment),
                )
              }
            />
          </div>
        </Labelled>
      ))}
      <Labelled label={kept.length === 0 ? 'Keeps out of' : 'and of'}>
        <Choice
          label="Another compartment to keep out of"
          value=""
          options={[['', kept.length === 0 ? 'Nothing' : 'No other'], ...free]}
          choose={(compartment) => {
            if (compartment !== '')
              set(`Keep ${mark} out of ${compartmentName(boat, compartment)}`, [...kept, compartment]);
          }}
        />
      </Labelled>
    </>
  );
}
