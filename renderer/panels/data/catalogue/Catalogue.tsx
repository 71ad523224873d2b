import { type JSX, type KeyboardEvent, useState } from 'react';
import { Segmented } from '../../inspector/parts';
import { DialogFrame, takesFocus, useRefusals } from '../DialogFrame';
import { GROUP_WORDS, KIND_ENTRIES, matches, PART_ENTRIES, WHAT_WORDS } from './entries';
import { KindPage } from './KindPage';
import { PartPage } from './PartPage';
import { KindRow, PartRow } from './rows';

type Tab = 'parts' | 'kinds';

/** Generic parts, hoses, tubes and cables to begin with. Every value is typical and says so. */
export function Catalogue({ close }: { close(): void }): JSX.Element {
  const [tab, setTab] = useState<Tab>('parts');
  const [words, setWords] = useState('');
  const [picked, setPicked] = useState<Readonly<Record<Tab, string>>>({
    parts: PART_ENTRIES[0]?.id ?? '',
    kinds: KIND_ENTRIES[0]?.id ?? '',
  });
  const refusals = useRefusals();
  const parts = PART_ENTRIES.filter(({ part, group, id }) =>
    matches(words, part.name, part.kind, GROUP_WORDS[group], id),
  );
  const kinds = KIND_ENTRIES.filter(({ kind, id }) => matches(words, kind.name, WHAT_WORDS[kind.what], id));
  const shown = tab === 'parts' ? parts : kinds;
  const now = shown.some(({ id }) => id === picked[tab]) ? picked[tab] : (shown[0]?.id ?? '');
  const pick = (id: string): void => setPicked({ ...picked, [tab]: id });

  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>): void => {
    if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
    const at = shown.findIndex(({ id }) => id === now);
    const next = shown[Math.min(shown.length - 1, Math.max(0, at + (event.key === 'ArrowDown' ? 1 : -1)))];
    if (!next) return;
    event.preventDefault();
    pick(next.id);
    event.currentTarget.querySelector<HTMLElement>(`[data-entry="${next.id}"]`)?.focus();
  };

  const part = parts.find(({ id }) => id === now);
  const kind = kinds.find(({ id }) => id === now);
  return (
    <DialogFrame
      title="Catalogue"
      close={close}
      problems={refusals}
      aside={
        <>
          <Segmented<Tab>
            label="What is shown"
            value={tab}
            options={[
              ['parts', 'Parts and fixtures'],
              ['kinds', 'Hoses, tubes, cables'],
            ]}
            choose={setTab}
          />
          <div className="field data-filter">
            <input
              ref={takesFocus}
              type="search"
              aria-label="Find in the catalogue"
              placeholder="Find, as in filter or 19 mm"
              value={words}
              onChange={(event) => setWords(event.target.value)}
            />
          </div>
        </>
      }
    >
      <div className="data-columns list">
        <div className="data-list" role="listbox" aria-label="Entries" tabIndex={-1} onKeyDown={onKeyDown}>
          {shown.length === 0 ? (
            <p className="quiet data-none">{`Nothing here is called ${words}. Enter it from its data sheet.`}</p>
          ) : null}
          {tab === 'parts'
            ? parts.map((entry, index) => (
                <PartRow
                  key={entry.id}
                  entry={entry}
                  heading={
                    parts[index - 1]?.group === entry.group && parts[index - 1]?.as === entry.as
                      ? null
                      : headingOf(entry)
                  }
                  picked={entry.id === now}
                  pick={pick}
                />
              ))
            : kinds.map((entry, index) => (
                <KindRow
                  key={entry.id}
                  entry={entry}
                  heading={kinds[index - 1]?.kind.what === entry.kind.what ? null : WHAT_WORDS[entry.kind.what]}
                  picked={entry.id === now}
                  pick={pick}
                />
              ))}
        </div>
        <div className="data-sheet" key={now}>
          {tab === 'parts' && part ? <PartPage entry={part} close={close} /> : null}
          {tab === 'kinds' && kind ? <KindPage entry={kind} close={close} /> : null}
        </div>
      </div>
    </DialogFrame>
  );
}

const headingOf = ({ group, as }: (typeof PART_ENTRIES)[number]): string =>
  `${GROUP_WORDS[group]}${as === 'part' ? ', to fit' : ', aboard already'}`;
