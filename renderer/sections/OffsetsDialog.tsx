import { OFFSET_UNITS, type OffsetUnit } from '@core/boat/offsets/cell';
import { type ReadOffsets, readOffsets } from '@core/boat/offsets/read';
import type { Boat } from '@core/boat/schema/boat';
import { stationsReplaced } from '@core/boat/station-edits';
import { type ChangeEvent, type JSX, useMemo, useRef, useState } from 'react';
import { documentsNow } from '../app/commands';
import { Modal } from '../app/Modal';
import { GradeChoice } from '../panels/fields/GradeChoice';
import { LengthField } from '../panels/fields/LengthField';
import { figure } from '../panels/format';
import { Choice, Labelled, Segmented } from '../panels/inspector/parts';

import { useApp } from '../store/app';
import { emptyForm, OffsetsForm, textOfForm } from './OffsetsForm';
import { OffsetsPreview } from './OffsetsPreview';
import { setSections } from './store';

const UNIT_WORDS: Readonly<Record<OffsetUnit, string>> = {
  mm: 'Millimetres',
  cm: 'Centimetres',
  m: 'Metres',
  'ft-in-8': 'Feet, inches, eighths',
};
const LARGEST_FILE = 5_000_000;
const EXAMPLE =
  'Station\t0\t1\t2\nx\t0\t2000\t4000\nHeights\nKeel\t-300\t-600\t-100\nSheer\t900\t850\t950\nHalf-breadths\nWL 0\t500\t1000\t10\nSheer\t800\t1200\t50';

/** A hull from a table: pasted, opened or typed, looked at before it is taken. Also the way for whoever measures from inside. */
export default function OffsetsDialog({
  boat,
  fromInside,
}: {
  readonly boat: Boat;
  readonly fromInside: boolean;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const [way, setWay] = useState<'type' | 'paste'>(fromInside ? 'type' : 'paste');
  const [pasted, setPasted] = useState('');
  const [form, setForm] = useState(emptyForm);
  const [unit, setUnit] = useState<OffsetUnit | 'told'>('told');
  const [decimal, setDecimal] = useState<'.' | ',' | 'told'>('told');
  const [spacingM, setSpacing] = useState<number | null>(null);
  const [waterM, setWater] = useState(0);
  const [measuredTo, setMeasuredTo] = useState<'outside' | 'inside'>(
    fromInside ? 'inside' : (boat.hull?.measuredTo ?? 'outside'),
  );
  const [shellM, setShell] = useState(boat.hull?.shellM ?? 0.012);
  const [liningM, setLining] = useState(boat.hull?.liningM ?? 0);
  const [grade, setGrade] = useState(boat.hull?.grade ?? 'taped');
  const [refusal, setRefusal] = useState<string | null>(null);
  const file = useRef<HTMLInputElement>(null);
  const close = (): void => setSections({ dialog: null });

  const text = way === 'paste' ? pasted : textOfForm(form);
  const read = useMemo((): ReadOffsets | null => {
    if (text.trim() === '') return null;
    const own = way === 'type' ? (units === 'mm' ? 'mm' : 'ft-in-8') : undefined;
    return readOffsets(text, {
      unit: unit === 'told' ? own : unit,
      decimal: decimal === 'told' ? undefined : decimal,
      ...(spacingM !== null ? { spacingM } : {}),
      waterM,
    });
  }, [text, way, units, unit, decimal, spacingM, waterM]);

  const open = async (event: ChangeEvent<HTMLInputElement>): Promise<void> => {
    const chosen = event.target.files?.[0];
    event.target.value = '';
    if (!chosen) return;
    if (chosen.size > LARGEST_FILE) {
      setRefusal(
        `${chosen.name} has ${figure(chosen.size / 1e6, 1)} MB, at most 5: a table of offsets has a few kilobytes.`,
      );
      return;
    }
    const content = await chosen.text();
    if (content.includes('\u0000')) {
      setRefusal(`${chosen.name} is no text. Save the table as CSV and open that.`);
      return;
    }
    setRefusal(null);
    setWay('paste');
    setPasted(content);
  };

  const take = (): void => {
    if (!read || read.faults.length > 0) return;
    const stations =
      way === 'paste'
        ? read.stations
        : Object.fromEntries(
            Object.entries(read.stations).map(([id, station]) => [id, { ...station, taken: 'tape' as const }]),
          );
    const label = boat.hull ? 'Hull from another table' : 'Hull from a table';
    if (!useApp.getState().edit(label, stationsReplaced(stations, { measuredTo, shellM, liningM, grade }))) return;
    useApp.getState().select(null);
    setSections({ dialog: null, board: 'sections', stationId: null, point: null, refusal: null });
    useApp.getState().notify(`${label}: ${read.order.length} stations. Undo: Ctrl Z`);
  };

  const canTake = read !== null && read.faults.length === 0;
  const count = boat.hull ? Object.keys(boat.hull.stations).length : 0;
  return (
    <Modal label="Hull from offsets" close={close}>
      <div className="offsets-dialog">
        <header>
          <h2>Hull from offsets</h2>
          <Segmented<typeof way>
            label="How the offsets come in"
            value={way}
            options={[
              ['paste', 'Paste or open'],
              ['type', 'Type from the tape'],
            ]}
            choose={setWay}
          />
        </header>
        <div className="offsets-columns">
          <div>
            {way === 'paste' ? (
              <>
                <label className="above">
                  <span>Table: stations across or down, or one point a row</span>
                  <textarea
                    aria-label="Table of offsets"
                    spellCheck={false}
                    rows={13}
                    value={pasted}
                    placeholder={EXAMPLE}
                    onChange={(event) => setPasted(event.target.value)}
                  />
                </label>
                <div className="actions">
                  <input
                    ref={file}
                    type="file"
                    hidden
                    aria-label="CSV file"
                    accept=".csv,.tsv,.txt,text/csv,text/plain"
                    onChange={(event) => void open(event)}
                  />
                  <button type="button" className="button" onClick={() => file.current?.click()}>
                    Open a CSV
                  </button>
                  {boat.hull ? (
                    <>
                      <button
                        type="button"
                        className="button plain"
                        onClick={() => void documentsNow()?.exportOffsets('mm')}
                      >
                        Export in mm
                      </button>
                      <button
                        type="button"
                        className="button plain"
                        onClick={() => void documentsNow()?.exportOffsets('ft-in-8')}
                      >
                        Export in ft-in-8ths
                      </button>
                    </>
                  ) : null}
                </div>
              </>
            ) : (
              <OffsetsForm form={form} change={setForm} />
            )}
            {refusal === null ? null : (
              <p className="field-error" role="alert">
                {refusal}
              </p>
            )}
          </div>
          <div>
            <OffsetsPreview read={read} />
            <div className="offsets-choices">
              {way === 'paste' ? (
                <>
                  <Labelled label="Figures are in">
                    <Choice<typeof unit>
                      label="Unit of the figures"
                      value={unit}
                      options={[
                        ['told', read ? `${UNIT_WORDS[read.unit]}, as found` : 'As found'] as const,
                        ...OFFSET_UNITS.map((key) => [key, UNIT_WORDS[key]] as const),
                      ]}
                      choose={setUnit}
                    />
                  </Labelled>
                  <Labelled label="Decimal sign">
                    <Choice<typeof decimal>
                      label="Decimal sign"
                      value={decimal}
                      options={[
                        ['told', read ? `${read.decimal === ',' ? 'Comma' : 'Point'}, as found` : 'As found'],
                        ['.', 'Point'],
                        [',', 'Comma'],
                      ]}
                      choose={setDecimal}
                    />
                  </Labelled>
                  <Labelled label="Stations apart">
                    <LengthField
                      label="From one station to the next, where the table does not say"
                      value={spacingM}
                      commit={setSpacing}
                      clear={() => setSpacing(null)}
                      placeholder="as the table says"
                    />
                  </Labelled>
                </>
              ) : null}
              <Labelled label="Water above base">
                <LengthField
                  label="Height of the water above the line that heights are taken from"
                  value={waterM}
                  commit={setWater}
                />
              </Labelled>
              <Labelled label="Taken to the">
                <Segmented<typeof measuredTo>
                  label="Offsets are taken to"
                  value={measuredTo}
                  options={[
                    ['outside', 'Outside'],
                    ['inside', 'Inside'],
                  ]}
                  choose={setMeasuredTo}
                />
              </Labelled>
              <Labelled label="Shell">
                <LengthField label="Shell" value={shellM} commit={(value) => setShell(Math.max(0, value))} />
              </Labelled>
              <Labelled label="Lining off shell">
                <LengthField
                  label="Lining stands off the shell"
                  value={liningM}
                  commit={(value) => setLining(Math.max(0, value))}
                />
              </Labelled>
              <Labelled label="Accuracy">
                <GradeChoice label="How good the offsets are" value={grade} choose={setGrade} />
              </Labelled>
            </div>
          </div>
        </div>
        <footer className="actions">
          <button type="button" className="button" disabled={!canTake} onClick={take}>
            {canTake ? `Take ${read.order.length} stations` : 'Take the stations'}
          </button>
          <button type="button" className="button plain" onClick={close}>
            Cancel
          </button>
          <span className="quiet">
            {count > 0 ? `They replace the ${count} stations of now; undo brings those back.` : ''}
            {measuredTo === 'inside' ? ' Shell and lining are added outwards.' : ''}
          </span>
        </footer>
      </div>
    </Modal>
  );
}
