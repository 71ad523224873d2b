import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { sweepTemporaries } from '@electron/files/atomic-write';
import { GrantedPaths } from '@electron/files/granted-paths';
import { Journals } from '@electron/files/journal';
import { build } from 'vite';
import { expect } from 'vitest';
import { inProject } from '../../../electron/launch/project.mjs';
import { dice } from '../../support/dice';

const CHARACTERS = 1_000_000;
const EDITS_A_SAVE = 5;
/** Longest wait after the first answer before the kill, ms: some edits, a save and the journals around it take about as long. */
const LONGEST_WAIT_MS = 40;
/** Every fourth kill comes at any moment after the start instead, so that bringing back is broken off too. */
const LONGEST_START_MS = 140;

export interface KillTally {
  readonly kills: number;
  /** Edits that were answered before a kill, all told. */
  readonly answered: number;
  /** Kills after which the newest edit was in a journal and not in the file. */
  readonly inJournalAlone: number;
  /** Kills that left a temporary file behind. */
  readonly leftovers: number;
  readonly tornJournals: number;
}

/** Bundles the session, so that Node runs it without a loader. */
export async function buildSession(folder: string): Promise<string> {
  await build({
    configFile: false,
    logLevel: 'error',
    resolve: { tsconfigPaths: true },
    ssr: { noExternal: true },
    build: {
      ssr: inProject('tests', 'electron', 'files', 'session.ts'),
      outDir: folder,
      emptyOutDir: false,
      rolldownOptions: { output: { entryFileNames: 'session.mjs', format: 'es' } },
    },
  });
  return path.join(folder, 'session.mjs');
}

/**
 * Kills a session so often, each at a random moment, and looks each time at what is on the disk: the file and every version of it
 * whole, and no edit lost that was answered.
 */
export async function killSessions(session: string, folder: string, kills: number, seed: number): Promise<KillTally> {
  const file = path.join(folder, 'boat.json');
  writeFileSync(file, `0 ${'0'.repeat(CHARACTERS)}`);
  const luck = dice(seed);
  let before = 0;
  const tally = { kills: 0, answered: 0, inJournalAlone: 0, leftovers: 0, tornJournals: 0 };
  for (let kill = 0; kill < kills; kill++) {
    const atStart = kill % 4 === 3;
    const waitMs = luck.from(0, atStart ? LONGEST_START_MS : LONGEST_WAIT_MS);
    const answered = Math.max(before, await killedSession(session, folder, waitMs, atStart));
    const inFile = wholeVersions(file);
    const { journals, unreadable } = await new Journals(path.join(folder, 'recovery'), new GrantedPaths()).list();
    expect([kill, unreadable]).toEqual([kill, []]);
    const inJournals = journals.map(({ baseText, entries }) => {
      const base = Number(baseText.split(' ', 1)[0]);
      // One after the other, none missing.
      expect([kill, entries.map(Number)]).toEqual([kill, entries.map((_, at) => base + 1 + at)]);
      return base + entries.length;
    });
    const kept = Math.max(inFile, ...inJournals);
    expect([kill, kept >= answered, kept <= answered + 1]).toEqual([kill, true, true]);
    tally.kills += 1;
    tally.answered += answered - before;
    tally.inJournalAlone += inFile < kept ? 1 : 0;
    tally.leftovers += readdirSync(folder).some((name) => name.endsWith('.tmp')) ? 1 : 0;
    tally.tornJournals += journals.some(({ torn }) => torn) ? 1 : 0;
    await sweepTemporaries(folder, Date.now() + 7_200_000);
    before = kept;
  }
  return tally;
}

/** Number of the edit that the file holds; it and its versions are each of one piece. */
function wholeVersions(file: string): number {
  for (const version of [file, `${file}.bak1`, `${file}.bak2`, `${file}.bak3`].filter(existsSync)) {
    const [edit = '', filling = ''] = readFileSync(version, 'utf8').split(' ', 2);
    expect([version, filling.length, filling === edit.slice(-1).repeat(CHARACTERS)]).toEqual([
      version,
      CHARACTERS,
      true,
    ]);
  }
  return Number(readFileSync(file, 'utf8').split(' ', 1)[0]);
}

/** Runs a session, kills it so many ms after its start or its first answer, and tells the last edit that it had answered, or 0. */
async function killedSession(session: string, folder: string, waitMs: number, atStart: boolean): Promise<number> {
  const words = [session, folder, String(EDITS_A_SAVE), String(CHARACTERS)];
  const child = spawn(process.execPath, words, { stdio: ['ignore', 'pipe', 2] });
  let said = '';
  const closed = new Promise((resolve) => child.once('close', resolve));
  const begun = firstWord(child, (text) => {
    said += text;
  });
  if (!atStart) await begun;
  await new Promise((resolve) => setTimeout(resolve, waitMs));
  child.kill('SIGKILL');
  await closed;
  // The last line may be cut: it was not answered in whole.
  return Number(said.split('\n').at(-2) ?? 0);
}

function firstWord(child: ChildProcess, heard: (text: string) => void): Promise<void> {
  return new Promise((resolve, reject) => {
    child.once('exit', (code, signal) => {
      if (signal === 'SIGKILL') resolve();
      else reject(new Error(`the session ended by itself with ${code}`));
    });
    child.stdout?.on('data', (text: Buffer) => {
      heard(text.toString());
      resolve();
    });
  });
}
