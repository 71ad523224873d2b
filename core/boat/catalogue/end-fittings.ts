import type { LineEndFitting, LineKind } from '../schema/boat';

export interface EndFittingChoice {
  readonly id: string;
  readonly name: string;
  readonly end: LineEndFitting;
}

/** Metres to the tenth of a millimetre. */
const tidy = (metres: number): number => Math.round(metres * 1e4) / 1e4;

/** An elbow sticks out sideways as far as it drops: that is what must pass a hole. */
const elbow = (name: string, angleDeg: 45 | 90, { diameterM, rigidM, ...straight }: Straight): LineEndFitting => {
  const dropM = tidy(angleDeg === 90 ? 0.6 * rigidM + diameterM / 2 : 0.8 * rigidM);
  return {
    ...straight,
    name,
    angleDeg,
    rigidM: tidy(dropM + rigidM / 2),
    dropM,
    diameterM: tidy(angleDeg === 90 ? Math.max(1.9 * diameterM, 0.02) : 1.4 * diameterM),
  };
};

interface Straight {
  readonly diameterM: number;
  readonly rigidM: number;
  readonly swivel: boolean;
  readonly crimped: boolean;
}

/**
 * The usual end fittings of a hose, tube or cable, sized to it: typical, to be replaced by the data sheet of the real one. The
 * first is that of its kind. Elbows from memory: of 3/8 in pressure hose a 90 degree end wants a hole of 45 to 60 mm.
 */
export function endFittingsFor(kind: LineKind): readonly EndFittingChoice[] {
  const straight: Straight = {
    diameterM: kind.end?.diameterM ?? tidy(kind.outsideM + 0.008),
    rigidM: kind.end?.rigidM ?? 0.04,
    swivel: kind.end?.swivel ?? false,
    crimped: kind.end?.crimped ?? kind.crimpedEnds,
  };
  const choice = (id: string, end: LineEndFitting): EndFittingChoice => ({ id, name: end.name ?? id, end });
  const plain = (name: string): LineEndFitting => ({ ...straight, name, angleDeg: 0 });
  if (kind.what === 'cable')
    return kind.areaMm2 !== undefined && kind.areaMm2 > 1
      ? [
          choice('ring', plain('ring terminal')),
          choice('ring-90', elbow('ring terminal, bent 90 degrees', 90, straight)),
        ]
      : [
          choice('plug', plain('plug')),
          choice('bare', { ...plain('bare ends'), diameterM: kind.outsideM, rigidM: 0.01 }),
        ];
  if (kind.what === 'tube')
    return [
      choice('push', plain('push-fit, straight')),
      choice('push-90', elbow('push-fit elbow', 90, straight)),
      choice('compression', { ...plain('compression nut'), swivel: true }),
    ];
  if (kind.crimpedEnds)
    return [
      choice('nut', plain('ferrule and swivel nut')),
      choice('nut-45', elbow('ferrule and swivel nut, 45 degrees', 45, straight)),
      choice('nut-90', elbow('ferrule and swivel nut, 90 degrees', 90, straight)),
      choice('male', { ...plain('ferrule and fixed male end'), swivel: false }),
      choice('reusable', {
        ...plain('re-usable end, put on after'),
        crimped: false,
        rigidM: tidy(straight.rigidM * 1.1),
      }),
    ];
  return [
    choice('barb', plain('barb and two clamps')),
    choice('barb-45', elbow('barb elbow, 45 degrees', 45, straight)),
    choice('barb-90', elbow('barb elbow, 90 degrees', 90, straight)),
    choice('swivel', { ...plain('swivel nut and barb'), swivel: true, rigidM: tidy(straight.rigidM + 0.015) }),
  ];
}
