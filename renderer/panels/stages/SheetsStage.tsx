import type { Boat } from '@core/boat/schema/boat';
import { type JSX, useState } from 'react';
import { documentsNow } from '../../app/commands';
import { copyList } from '../../app/sheets/copy-list';
import { printGeneral, printMockUp, printNextReadings, printSurvey, printWholeSurvey } from '../../app/sheets/orders';
import { useApp } from '../../store/app';
import { useMeasureNext } from '../../store/measure-next';
import { markOf, thingOf, thingsOf } from '../../store/select';
import { PaperChoice } from '../fields/PaperChoice';
import { figure } from '../format';
import { Choice, Facts, Panel } from '../inspector/parts';
import { groupWords } from '../tables/TakeoffTable';
import { ListSettings } from './ListSettings';

/** What can be taken aboard on paper: lists to buy from, cardboard to try with. */
export function SheetsStage({ boat }: { readonly boat: Boat }): JSX.Element {
  return (
    <>
      <PartsList boat={boat} />
      <Paper />
      <GeneralArrangement boat={boat} />
      <ListSettings boat={boat} />
      <MockUps boat={boat} />
      <SurveySheets boat={boat} />
      <NextReadings boat={boat} />
    </>
  );
}

function PartsList({ boat }: { readonly boat: Boat }): JSX.Element {
  const report = useApp((state) => state.report);
  const stale = useApp((state) => state.stale);
  const rows = report?.takeoff ?? [];
  const groups = [...new Set(rows.map((row) => row.group))];
  const missing = rows.filter((row) => row.group === 'notPlaced').length;
  return (
    <Panel
      title="Parts and lengths"
      aside={
        stale ? <span className="stale">being worked out</span> : rows.length === 1 ? '1 row' : `${rows.length} rows`
      }
    >
      <p className="sub">
        What to buy, drill and cut for {boat.name}, from the runs as routed. Buy lengths carry the spare.
      </p>
      <Facts
        rows={groups.map(
          (group) => [groupWords(group), figure(rows.filter((row) => row.group === group).length)] as const,
        )}
      />
      {missing === 0 ? null : <p>{missing} things or lines are missing from the lengths: not placed or not routed.</p>}
      <div className="actions">
        <button
          type="button"
          className="button"
          disabled={report === null || stale}
          onClick={() => report && void documentsNow()?.exportWorkbook(rows)}
        >
          Save as workbook
        </button>
        <button
          type="button"
          className="button"
          disabled={report === null || stale}
          onClick={() => report && void documentsNow()?.exportList(rows)}
        >
          Export the list as CSV
        </button>
        <button
          type="button"
          className="button plain"
          disabled={rows.length === 0}
          onClick={() => void copyList(rows, boat)}
        >
          Copy
        </button>
      </div>
    </Panel>
  );
}

function GeneralArrangement({ boat }: { readonly boat: Boat }): JSX.Element {
  const report = useApp((state) => state.report);
  const stale = useApp((state) => state.stale);
  return (
    <Panel title="General arrangement" level={3} aside="the first sheet">
      <p className="sub">
        Three views to scale with the numbers of the list, then list, cuts, holes, a bag of hardware for each place,
        open findings and cautions. The section is cut where it shows most parts.
      </p>
      <div className="actions">
        <button
          type="button"
          className="button"
          disabled={report === null || stale}
          onClick={() => report && void printGeneral(boat, report)}
        >
          Save as PDF
        </button>
      </div>
    </Panel>
  );
}

function Paper(): JSX.Element {
  return (
    <Panel title="Paper" level={3}>
      <PaperChoice />
      <p className="sub">Print at 100 %, not fitted to the page. Every sheet has a line of 100 mm to check.</p>
    </Panel>
  );
}

function MockUps({ boat }: { readonly boat: Boat }): JSX.Element | null {
  const things = thingsOf(boat);
  const selected = useApp((state) => (state.selection?.kind === 'thing' ? state.selection.id : null));
  const [picked, setPicked] = useState<string | null>(null);
  // What was chosen here, else what is picked on the drawing, else the first.
  const id = [picked, selected].find((one) => one !== null && thingOf(boat, one) !== null) ?? things[0]?.id ?? null;
  const thing = id === null ? null : thingOf(boat, id);
  if (id === null || !thing) return null;
  return (
    <Panel title="Cardboard mock-up" level={3} aside="full size">
      <p className="sub">
        Its envelope unfolded, with ports and the room for service on it: cut, fold, carry it aboard.
      </p>
      <div className="add-row">
        <Choice
          label="Thing to make of cardboard"
          value={id}
          options={things.map((row) => [row.id, `${markOf(row.id, row.thing)}  ${row.thing.name}`] as const)}
          choose={setPicked}
        />
        <button type="button" className="button" onClick={() => void printMockUp(thing)}>
          Save as PDF
        </button>
      </div>
    </Panel>
  );
}

const FLOATING = '/floating';

function SurveySheets({ boat }: { readonly boat: Boat }): JSX.Element {
  const compartments = Object.entries(boat.compartments).sort(([, a], [, b]) => a.name.localeCompare(b.name, 'en'));
  const selected = useApp((state) => (state.selection?.kind === 'compartment' ? state.selection.id : FLOATING));
  const [picked, setPicked] = useState<string | null>(null);
  const wanted = picked ?? selected;
  const chosen = Object.hasOwn(boat.compartments, wanted) ? wanted : FLOATING;
  return (
    <Panel title="Survey sheets" level={3} aside="to fill in aboard">
      <p className="sub">A sketch with lettered arrows and a blank for each; openings with both diagonals.</p>
      <div className="add-row">
        <Choice
          label="Sheet to measure by"
          value={chosen}
          options={[
            [FLOATING, 'How the boat floats'] as const,
            ...compartments.map(([id, { name }]) => [id, name] as const),
          ]}
          choose={setPicked}
        />
        <button
          type="button"
          className="button"
          onClick={() => void printSurvey(boat, chosen === FLOATING ? null : chosen)}
        >
          Save as PDF
        </button>
      </div>
      {compartments.length === 0 ? null : (
        <div className="actions">
          <button type="button" className="button plain" onClick={() => void printWholeSurvey(boat)}>
            Save all {compartments.length} compartments
          </button>
        </div>
      )}
    </Panel>
  );
}

/** Waits for the worker: which readings are best takes a while to find out. */
function NextReadings({ boat }: { readonly boat: Boat }): JSX.Element {
  const { readings, progress, start, cancel } = useMeasureNext();
  return (
    <Panel title="Measure this next" level={3}>
      <p className="sub">The five readings that would settle most verdicts, on one page.</p>
      <div className="actions">
        {readings === null ? (
          <button type="button" className="button" onClick={progress === null ? start : cancel}>
            {progress === null
              ? 'Find the readings'
              : `Stop: ${Math.round((100 * progress.done) / Math.max(1, progress.of))} % looked at`}
          </button>
        ) : (
          <>
            <button
              type="button"
              className="button"
              disabled={readings.length === 0}
              onClick={() => void printNextReadings(boat, readings)}
            >
              {readings.length === 0 ? 'Nothing to measure' : 'Save as PDF'}
            </button>
            <button type="button" className="button plain" onClick={start}>
              Find them again
            </button>
          </>
        )}
      </div>
    </Panel>
  );
}
