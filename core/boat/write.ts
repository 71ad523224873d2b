import { ENGINE_VERSION } from '../base/engine-version';
import { type Boat, boatSchema } from './schema/boat';
import { isPlain, withoutDefaults } from './schema-walk';

/**
 * The text of a boat file: sorted keys, two spaces, points on one line, what the schema fills in by itself left out,
 * the version of this engine put in. `readBoat` of it gives the same boat, but for `engineVersion`.
 */
export function writeBoat(boat: Boat): string {
  const slim = withoutDefaults({ ...boat, engineVersion: ENGINE_VERSION }, boatSchema);
  return `${written(slim, '')}\n`;
}

function written(value: unknown, indent: string): string {
  const deeper = `${indent}  `;
  if (Array.isArray(value)) {
    if (value.every((item) => typeof item !== 'object' || item === null)) return `[${value.map(scalar).join(', ')}]`;
    if (value.every((item) => Array.isArray(item) && item.every((v) => typeof v === 'number'))) {
      const line = `[${value.map((item) => written(item, deeper)).join(', ')}]`;
      if (line.length + indent.length <= 118) return line;
    }
    return `[\n${value.map((item) => deeper + written(item, deeper)).join(',\n')}\n${indent}]`;
  }
  if (!isPlain(value)) return scalar(value);
  const keys = Object.keys(value).filter((key) => value[key] !== undefined);
  if (keys.length === 0) return '{}';
  keys.sort(byCodeUnit);
  const members = keys.map((key) => `${deeper}${JSON.stringify(key)}: ${written(value[key], deeper)}`);
  return `{\n${members.join(',\n')}\n${indent}}`;
}

const scalar = (value: unknown): string => JSON.stringify(value) ?? 'null';
const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
