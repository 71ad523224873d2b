import { freeTag } from '@core/boat/free-tag';
import { idFrom } from '@core/boat/record/edits';
import { schemaAt, valueAt } from '@core/boat/record/fields';
import { type Boat, boatSchema, type Part } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { markOf } from '../../../store/select';
import { Subject, Target } from '../../record/edit';
import { Hinted } from '../../record/RecordEditor';
import { RecordFields } from '../../record/RecordFields';
import { DialogFrame } from '../DialogFrame';
import { useDataSheet } from '../data-sheet';
import { ThreeViews } from '../ThreeViews';
import { useSheetDraft } from './draft';
import { Envelope } from './Envelope';
import { PortsOfSheet } from './PortsOfSheet';
import { ServicesOfSheet } from './ServicesOfSheet';

/** Entered by forms of their own above the rest. */
const OWN = new Set(['shape', 'ports', 'services', 'pose']);

/** A part from its data sheet: what the sheet says on the left, what that looks like, to scale, on the right. */
export function DataSheet({ close }: { close(): void }): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  return boat ? <Sheet open={boat} close={close} /> : null;
}

function Sheet({ open, close }: { readonly open: Boat; close(): void }): JSX.Element | null {
  const subject = useDataSheet((state) => state.subject);
  const draft = useSheetDraft(open, subject);
  const store = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const { boat, path } = draft;
  const part = valueAt(boat, path) as Part | undefined;
  const schema = schemaAt(boatSchema, boat, path);
  if (!part || !schema) return null;
  const save = (): void => {
    const [group, drafted] = path;
    const id = draft.isNew ? idFrom({ ...open.parts, ...open.fixtures }, part.name) : drafted;
    const kept = draft.isNew ? { ...part, tag: part.tag ?? freeTag(open, part) } : part;
    const label = draft.isNew ? `Add ${kept.tag} ${part.name}` : `Data sheet of ${markOf(id, part)}`;
    const made = store(label, (own) => {
      (own[group] as Record<string, unknown>)[id] = structuredClone(kept);
      carryTyped(own, boat, `${path[0]}.${drafted}`, `${group}.${id}`);
    });
    if (!made) return;
    select({ kind: 'thing', id });
    close();
  };
  return (
    <DialogFrame
      title={draft.isNew ? 'Part from its data sheet' : `Data sheet of ${markOf(path[1], part)}`}
      close={close}
      problems={draft.problems}
      acts={
        <button type="button" className="button" onClick={save}>
          {draft.isNew ? 'Save into the boat' : 'Save'}
        </button>
      }
    >
      <div className="data-columns form">
        <Target.Provider value={draft}>
          <Subject.Provider value="the part">
            <div className="data-sheet">
              <Hinted label="What the data sheet says">
                <RecordFields boat={boat} path={path} schema={schema} value={part} only={HEAD} />
                <Envelope draft={draft} part={part} />
                <PortsOfSheet draft={draft} part={part} />
                <ServicesOfSheet draft={draft} part={part} />
                <h3>All else</h3>
                <RecordFields boat={boat} path={path} schema={schema} value={part} skip={REST} />
              </Hinted>
            </div>
          </Subject.Provider>
        </Target.Provider>
        <div className="sheet-drawing">
          <ThreeViews part={part} width={500} height={460} dimensions />
          <p className="quiet">Side, top and from behind, to one scale. Dashed: the room that service needs.</p>
          <ol className="port-list">
            {Object.keys(part.ports).map((id) => (
              <li key={id}>{id}</li>
            ))}
          </ol>
        </div>
      </div>
    </DialogFrame>
  );
}

const HEAD = new Set(['name', 'kind', 'massKg']);
const REST = new Set([...OWN, ...HEAD]);

/** What was typed on the form goes with the part. */
function carryTyped(own: { typed?: Record<string, string> | undefined }, boat: Boat, from: string, to: string): void {
  for (const [path, text] of Object.entries(boat.typed ?? {})) {
    if (!path.startsWith(`${from}.`)) continue;
    own.typed ??= {};
    own.typed[`${to}${path.slice(from.length)}`] = text;
  }
}
