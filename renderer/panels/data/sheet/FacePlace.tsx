import {
  EDGES,
  edgesAt,
  FACES,
  type Face,
  faceOf,
  faceSize,
  halfOf,
  outOf,
  placeOnFace,
} from '@core/boat/catalogue/face-places';
import type { Shape } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { LengthField } from '../../fields/LengthField';
import { Choice, Labelled } from '../../inspector/parts';

export const FACE_WORDS: Readonly<Record<Face, string>> = {
  '+x': 'Forward end',
  '-x': 'After end',
  '+y': 'Port side',
  '-y': 'Starboard side',
  '+z': 'Top',
  '-z': 'Bottom',
};
const EDGE_WORDS = { after: 'after end', starboard: 'starboard side', bottom: 'bottom' } as const;

/** A place as a data sheet gives it: the face, and how far from two of its edges. */
export function FacePlace({
  shape,
  at,
  direction,
  of,
  put,
}: {
  readonly shape: Shape;
  readonly at: readonly [number, number, number];
  readonly direction: readonly [number, number, number];
  /** What has the place, for a screen reader. */
  readonly of: string;
  put(at: [number, number, number], direction: [number, number, number]): void;
}): JSX.Element {
  const half = halfOf(shape);
  const face = faceOf(half, at, direction);
  const edges = face ? edgesAt(half, at, face) : null;
  const move = (to: Face): void => {
    const [wide, high] = faceSize(half, to);
    put(placeOnFace(half, to, [wide / 2, high / 2]), outOf(to));
  };
  return (
    <>
      <Labelled label="On the">
        <Choice<Face | 'own'>
          label={`Face of ${of}`}
          value={face ?? 'own'}
          options={[
            ...FACES.map((one) => [one, FACE_WORDS[one]] as const),
            ...(face === null ? [['own', 'A place of its own'] as const] : []),
          ]}
          choose={(to) => {
            if (to !== 'own') move(to);
          }}
        />
      </Labelled>
      {face && edges
        ? EDGES[face].map((edge, k) => (
            <Labelled key={edge} label={`From the ${EDGE_WORDS[edge]}`}>
              <LengthField
                label={`From the ${EDGE_WORDS[edge]} to ${of}`}
                value={edges[k as 0 | 1]}
                judge={(read) => {
                  const most = faceSize(half, face)[k as 0 | 1];
                  return read.ok && (read.value < 0 || read.value > most)
                    ? {
                        ok: false,
                        message: `It must be from 0 to ${Math.round(most * 1000)} mm, the size of that face`,
                      }
                    : read;
                }}
                commit={(value) =>
                  put(placeOnFace(half, face, k === 0 ? [value, edges[1]] : [edges[0], value]), outOf(face))
                }
              />
            </Labelled>
          ))
        : null}
    </>
  );
}
