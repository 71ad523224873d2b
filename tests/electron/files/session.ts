import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { BoatFiles } from '@electron/files/boat-files';
import { GrantedPaths } from '@electron/files/granted-paths';
import { Journals } from '@electron/files/journal';

/**
 * A process that edits, journals and saves until it is killed: `node session.mjs FOLDER EDITS_A_SAVE CHARACTERS`. It goes on from
 * what its folder holds, and says `N` on a line for each edit once that is answered. The boat is the number of its last edit and a
 * filling of one digit, so that a mixture of two versions shows.
 */
const [folder = '', perSave = '', characters = ''] = process.argv.slice(2);
const file = path.join(folder, 'boat.json');
const granted = new GrantedPaths();
const files = new BoatFiles(granted, {
  boatToOpen: async () => file,
  boatToSave: async () => null,
  exportTo: async () => null,
});
mkdirSync(path.join(folder, 'recovery'), { recursive: true });
const journals = new Journals(path.join(folder, 'recovery'), granted);
const textOf = (edit: number): string => `${edit} ${String(edit % 10).repeat(Number(characters))}`;

async function must<T extends { readonly outcome: string }, O extends T['outcome']>(
  work: Promise<T>,
  outcome: O,
): Promise<Extract<T, { outcome: O }>> {
  const answer = await work;
  if (answer.outcome !== outcome) throw new Error(JSON.stringify(answer));
  return answer as Extract<T, { outcome: O }>;
}

const { journals: left } = await journals.list();
const opened = await must(files.open(), 'opened');
const { token } = opened;
const last = left.flatMap(({ entries }) => entries.map(Number));
let edit = Math.max(Number(opened.text.split(' ', 1)[0]), ...last);
let nth = 0;
let documentId = '';
const begin = async (isSaved: boolean): Promise<void> => {
  const old = documentId;
  nth += 1;
  documentId = `document-${process.pid}-${nth}`;
  await must(journals.start({ documentId, name: 'boat.json', token, baseText: textOf(edit), isSaved }), 'started');
  if (old !== '') await journals.clear({ documentId: old });
};
// As the window does: the new journal stands before those that it was brought back from go.
await begin(false);
for (const { documentId: before } of left) await journals.clear({ documentId: before });
for (;;) {
  edit += 1;
  await must(journals.append({ documentId, entry: String(edit) }), 'appended');
  process.stdout.write(`${edit}\n`);
  if (edit % Number(perSave) !== 0) continue;
  const at = { token, suggestedName: 'boat.json', text: textOf(edit) };
  const saved = await files.save({ ...at, replaces: null });
  // The save that was broken off may have come to its end: that is one of ours.
  if (saved.outcome === 'changed') await must(files.save({ ...at, replaces: saved.stamp }), 'saved');
  await begin(true);
}
