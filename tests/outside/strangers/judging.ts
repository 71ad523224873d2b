import { readFileSync } from 'node:fs';
import { type AnalyzeOptions, analyze } from '@core/analyze';
import { readBoat } from '@core/boat/read';
import { expect } from 'vitest';

/* How the strangers' boats are changed, judged and asked. */

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
/** By path, parts joined with '/': the new value; undefined takes the record away. */
export type Changes = { readonly [path: string]: Json | undefined };
export type Report = ReturnType<typeof analyze>;

const folder = new URL('./', import.meta.url);
export const MM = 0.001;
export const rad = (degrees: number): number => (degrees * Math.PI) / 180;

export function raw(name: string): Json {
  return JSON.parse(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
}

export function change(root: Json, path: string, value: Json | undefined): void {
  const keys = path.split('/');
  const last = keys.pop() ?? '';
  let at = root;
  for (const key of keys) {
    if (Array.isArray(at)) at = at[Number(key)] ?? null;
    else if (at !== null && typeof at === 'object') {
      at[key] ??= {};
      at = at[key];
    } else throw new Error(`no such path ${path}`);
  }
  if (Array.isArray(at) && value !== undefined) at[Number(last)] = value;
  else if (at !== null && typeof at === 'object' && !Array.isArray(at)) {
    if (value === undefined) {
      if (!(last in at)) throw new Error(`nothing to take away at ${path}`);
      delete at[last];
    } else at[last] = value;
  } else throw new Error(`no such path ${path}`);
}

export function judgeRaw(boat: Json, options: AnalyzeOptions = {}): Report {
  const read = readBoat(JSON.stringify(boat));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return analyze(read.boat, options);
}

export function judge(name: string, changes: Changes = {}, options: AnalyzeOptions = {}): Report {
  const boat = raw(name);
  for (const [path, value] of Object.entries(changes)) change(boat, path, value);
  return judgeRaw(boat, options);
}

/** Lengths as short as geometry allows: runs are not drawn aside to what a clip holds them to. */
export const SHORTEST: AnalyzeOptions = { wishes: 'none' };

export function finding(report: Report, key: string) {
  const found = report.findings.find((f) => f.key === key);
  if (found === undefined) throw new Error(`no finding ${key} among ${report.findings.map((f) => f.key).join(', ')}`);
  return found;
}

/** Outcome with the reason of all but passes, as in 'fail tooLittle'. */
export function verdict(report: Report, key: string): string {
  const f = finding(report, key);
  return f.outcome === 'pass' ? 'pass' : `${f.outcome} ${f.reason}`;
}

export function measured(report: Report, key: string): number {
  const f = finding(report, key);
  if (f.outcome !== 'pass' && f.outcome !== 'fail') throw new Error(`${key} measured nothing: ${f.outcome}`);
  return f.measured.value;
}

export function datum(report: Report, key: string, name: string): number {
  const value = finding(report, key).data[name];
  if (typeof value !== 'number') throw new Error(`${key} has no number ${name}`);
  return value;
}

export function run(report: Report, line: string) {
  const found = report.runs.find((r) => r.lineId === line);
  if (found === undefined) throw new Error(`no run ${line}`);
  return found;
}

export function length(report: Report, line: string): number {
  const metres = run(report, line).lengthM;
  if (metres === null) throw new Error(`${line} is blocked`);
  return metres;
}

export function near(value: number, expected: number, within = MM): void {
  expect(Math.abs(value - expected), `${value} is not ${expected}`).toBeLessThanOrEqual(within);
}
