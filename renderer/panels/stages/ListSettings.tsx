import { LINE_KINDS, lineKindOf } from '@core/boat/catalogue/line-kinds';
import { type BoatRecipe, freeId } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { allowancesOf, type USUAL_ALLOWANCES } from '@core/output/takeoff/input';
import { type JSX, useState } from 'react';
import { useApp } from '../../store/app';
import { LengthField } from '../fields/LengthField';
import { QuantityField } from '../fields/QuantityField';
import { RemoveButton } from '../fields/RemoveButton';
import { figure, runFigure, runUnit } from '../format';
import { Choice, Labelled, Panel } from '../inspector/parts';

type Settings = NonNullable<Boat['takeoff']>;

const set =
  (values: Partial<Settings>): BoatRecipe =>
  (boat) => {
    boat.takeoff = { ...boat.takeoff, ...values };
  };
const unset =
  (key: keyof typeof USUAL_ALLOWANCES): BoatRecipe =>
  (boat) => {
    if (boat.takeoff) delete boat.takeoff[key];
    if (boat.takeoff && Object.keys(boat.takeoff).length === 0) delete boat.takeoff;
  };

/** What lengths are reckoned with, and what is there already to cut from. */
export function ListSettings({ boat }: { readonly boat: Boat }): JSX.Element {
  const { edit } = useApp.getState();
  const used = allowancesOf(boat.takeoff);
  return (
    <Panel title="What the list reckons with" level={3}>
      <Labelled label="Made up, each end">
        <LengthField
          label="Length that is cut and trimmed away at each end"
          value={used.makingUpM}
          commit={(makingUpM) => edit('Making-up length', set({ makingUpM }))}
          clear={() => edit('Making-up length', unset('makingUpM'))}
        />
      </Labelled>
      <Labelled label="Reserve">
        <ShareField
          label="Reserve on lengths taken off the drawing"
          value={used.reserveShare}
          commit={(reserveShare) => edit('Reserve on lengths', set({ reserveShare }))}
          clear={() => edit('Reserve on lengths', unset('reserveShare'))}
        />
      </Labelled>
      <Labelled label="Hoses shorten">
        <ShareField
          label="Share by which a hose with crimped ends may shorten under pressure"
          value={used.shorteningShare}
          commit={(shorteningShare) => edit('Shortening of hoses', set({ shorteningShare }))}
          clear={() => edit('Shortening of hoses', unset('shorteningShare'))}
        />
      </Labelled>
      <SuppliedLengths boat={boat} />
    </Panel>
  );
}

function ShareField({
  label,
  value,
  commit,
  clear,
}: {
  readonly label: string;
  readonly value: number;
  commit(share: number): void;
  clear(): void;
}): JSX.Element {
  return (
    <QuantityField
      label={label}
      value={value}
      unit="%"
      show={(share) => figure(share * 100, Number.isInteger(Math.round(share * 1e6) / 1e4) ? 0 : 1)}
      read={(typed) => {
        const percent = Number(typed.replace('%', '').replace(',', '.').trim());
        return percent >= 0 && percent <= 100
          ? { ok: true, value: percent / 100 }
          : { ok: false, message: 'Expected a share from 0 to 100 %' };
      }}
      commit={commit}
      clear={clear}
      steps={[0.01, 0.001]}
    />
  );
}

/** Hose, tube and cable that comes with the set or lies aboard, tied to no line: cut first. */
function SuppliedLengths({ boat }: { readonly boat: Boat }): JSX.Element {
  const { edit } = useApp.getState();
  const units = useApp((state) => state.displayUnits);
  const kinds = Object.entries({ ...LINE_KINDS, ...boat.lineKinds })
    .map(([id, { name }]) => [id, name] as const)
    .sort(([, a], [, b]) => a.localeCompare(b, 'en'));
  const inUse = Object.values(boat.lines)[0]?.kind;
  const [picked, setPicked] = useState<string | null>(null);
  const kind = kinds.find(([id]) => id === (picked ?? inUse))?.[0] ?? kinds[0]?.[0];
  const nameOf = (id: string): string => lineKindOf(boat.lineKinds, id)?.name ?? id;
  return (
    <>
      <p className="sub">Lengths that are there already are cut before any are bought.</p>
      {Object.entries(boat.suppliedLengths ?? {}).map(([id, length]) => (
        <Labelled key={id} label={length.name ?? nameOf(length.kind)}>
          <div className="field-and-act">
            <span>{`${runFigure(length.lengthM, units)} ${runUnit(units)}`}</span>
            <RemoveButton
              label={`Remove ${length.name ?? nameOf(length.kind)}`}
              remove={() =>
                edit('Remove a length that is there', (draft) => {
                  if (draft.suppliedLengths) delete draft.suppliedLengths[id];
                  if (draft.suppliedLengths && Object.keys(draft.suppliedLengths).length === 0)
                    delete draft.suppliedLengths;
                })
              }
            />
          </div>
        </Labelled>
      ))}
      {kind === undefined ? null : (
        <div className="add-row">
          <Choice label="Kind of the length that is there" value={kind} options={kinds} choose={setPicked} />
          <LengthField
            label="Add a length that is there"
            value={null}
            placeholder="length"
            commit={(lengthM) =>
              edit(`${nameOf(kind)} that is there`, (draft) => {
                draft.suppliedLengths ??= {};
                draft.suppliedLengths[freeId(draft.suppliedLengths, kind)] = { kind, lengthM };
              })
            }
          />
        </div>
      )}
    </>
  );
}
