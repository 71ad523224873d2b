import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { analyze } from '@core/analyze';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../core/boat/boat-of';

const ROOT = fileURLToPath(new URL('../../sample-boats/', import.meta.url));
const FOLDERS = readdirSync(ROOT).flatMap((shelf) => readdirSync(`${ROOT}${shelf}`).map((name) => `${shelf}/${name}`));

/** Records turned round, lists kept as they are. */
const turnedRound = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map(turnedRound)
    : typeof value === 'object' && value !== null
      ? Object.fromEntries(
          Object.entries(value)
            .reverse()
            .map(([key, one]) => [key, turnedRound(one)]),
        )
      : value;

describe('a boat whose records stand in another order', () => {
  it.each(FOLDERS)('%s has the same runs, findings and list', (folder) => {
    const json: unknown = JSON.parse(readFileSync(`${ROOT}${folder}/boat.json`, 'utf8'));
    const [asWritten, turned] = [analyze(boatOf(json)), analyze(boatOf(turnedRound(json)))];
    expect(turned.findings).toEqual(asWritten.findings);
    expect(turned.runs).toEqual(asWritten.runs);
    expect(turned.takeoff).toEqual(asWritten.takeoff);
  });
});
