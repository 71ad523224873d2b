import type { Thing } from '@core/boat/schema/boat';

/** Along x, y and z before the turn. */
export function envelopeOf(thing: Thing): readonly [number, number, number] {
  if (thing.shape.type === 'box') {
    const [x, y, z] = thing.shape.sizeM;
    return [x, y, z];
  }
  const { diameterM: d, lengthM: l, axis } = thing.shape;
  return axis === 'x' ? [l, d, d] : axis === 'y' ? [d, l, d] : [d, d, l];
}
