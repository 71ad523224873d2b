/** A port on the aft (-1) or forward (1) side of a small box. */
export const port = (medium: string, role: string, side: 1 | -1 = 1) => ({
  at: [0.06 * side, 0, 0],
  direction: [side, 0, 0],
  medium,
  role,
});

/** A small box of a kind, with ports and whatever else. */
export const part = (kind: string, ports: unknown, more: object = {}) => ({
  name: 'Something',
  kind,
  shape: { type: 'box', sizeM: [0.12, 0.1, 0.1] },
  ports,
  ...more,
});

const KINDS: Readonly<Record<string, string>> = {
  brine: 'hose-brine-16',
  waste: 'hose-drain-25',
  seaWater: 'hose-suction-19',
  product: 'tube-product-6',
  freshWater: 'hose-fresh-13',
};

/** A line from `thing.port` to `thing.port`, of a kind that suits its medium. */
export const line = (from: string, to: string, medium = 'brine') => {
  const [a = '', b = '', c = '', d = ''] = [...from.split('.'), ...to.split('.')];
  return { name: `${a} to ${c}`, kind: KINDS[medium], medium, from: { thing: a, port: b }, to: { thing: c, port: d } };
};
