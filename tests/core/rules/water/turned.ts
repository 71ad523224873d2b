import type { BoatJson } from '../judged';

type Json = Record<string, unknown>;
type Records = Record<string, Json>;
interface LineJson extends Json {
  readonly from: { readonly thing: string; readonly port: string };
  readonly to: { readonly thing: string; readonly port: string };
}

/** The same circuit with every thing and line under another id, in another order. */
export function renamed(json: BoatJson): { readonly json: BoatJson; readonly idOf: (id: string) => string } {
  const parts = Object.keys((json.parts ?? {}) as Json).sort();
  const names = new Map(parts.map((id, k) => [id, `q${(k * 7 + 3) % 97}`]));
  const idOf = (id: string): string => names.get(id) ?? id;
  const text = JSON.stringify(json, (key, value: unknown) => {
    if (key === 'thing' && typeof value === 'string') return idOf(value);
    if (key === 'running' && Array.isArray(value)) return value.map((id) => idOf(String(id)));
    if ((key === 'parts' || key === 'valves' || key === 'places') && typeof value === 'object' && value !== null)
      return Object.fromEntries(
        Object.entries(value)
          .reverse()
          .map(([id, one]) => [idOf(id), one]),
      );
    if (key === 'lines' && typeof value === 'object' && value !== null)
      return Object.fromEntries(
        Object.entries(value)
          .reverse()
          .map(([id, one]) => [`z${id}`, one]),
      );
    return value;
  });
  return { json: JSON.parse(text) as BoatJson, idOf };
}

/** The same circuit with every line drawn from its other end. */
export function drawnBackwards(json: BoatJson): BoatJson {
  const lines = (json.lines ?? {}) as Record<string, LineJson>;
  return {
    ...json,
    lines: Object.fromEntries(
      Object.entries(lines).map(([id, line]) => [id, { ...line, from: line.to, to: line.from }]),
    ),
  };
}

/** The same circuit, everything aboard already. */
export function asFixtures(json: BoatJson): BoatJson {
  const parts = (json.parts ?? {}) as Records;
  const fixtures = Object.fromEntries(
    Object.entries(parts).map(([id, part], k) => [id, { ...part, pose: { at: [k, 20, 3] } }]),
  );
  const { arrangements: _, currentArrangement: __, ...rest } = json;
  return { ...rest, parts: {}, fixtures: { ...((json.fixtures ?? {}) as Records), ...fixtures } };
}
