import * as portable from '../../../base/portable';
import type { Vec2 } from '../../../base/vec';
import { abbreviated, type Candidate, placeLabels, type Rect } from '../../views/labels';
import { type Lettering, type Mark, TEXT, text } from '../marks';
import { inkOfRun, runWords } from './line-looks';
import type { ViewPlace } from './places';
import type { ViewMarks } from './views';

const LETTER_PLACES = [0.5, 0.36, 0.64, 0.24, 0.76, 0.14, 0.86];
const SPOT_MM = 2;
const WORD_HEIGHT_MM = 3.4;

/** Letters of the runs, then names of places, each where nothing else stands; what finds no room is left to the tables. */
export function wordsOn(
  { runs, names, bodies }: ViewMarks,
  place: Pick<ViewPlace, 'at'>,
  scale: number,
  lettering: Lettering,
): Mark[] {
  const wide = (words: string, face: 'strong' | 'place'): number => lettering.width(words, TEXT.body, face) + 1.6;
  const letters = runs.flatMap(({ run, pieces }): Candidate[] => {
    const words = runWords(run.tag, run.style);
    const points = pieces.reduce<readonly Vec2[]>(
      (best, piece) => (lengthOf(piece) > lengthOf(best) ? piece : best),
      [],
    );
    const width = wide(words, 'strong');
    if (lengthOf(points) < width + 3) return [];
    const spots = LETTER_PLACES.map((share) => along(points, share));
    return [{ id: run.path.id, rank: 0, width, height: WORD_HEIGHT_MM, places: spots }];
  });
  const taken = bodies.filter(({ isPart }) => isPart).map(({ low, high }) => rectOf(low, high));
  const letterPlaces = placeLabels(letters, taken);
  const inks = new Map(runs.map(({ run }) => [run.path.id, run]));
  const marks: Mark[] = [...letterPlaces].flatMap(([id, [x, y]]) => {
    const run = inks.get(id);
    if (!run) return [];
    const words = runWords(run.tag, run.style);
    const ink = inkOfRun(run.style);
    return [text(words, [x, y + TEXT.body / 2], { anchor: 'middle', face: 'strong', ink, boxed: true })];
  });
  const spots = runs.flatMap(({ pieces }) => pieces.flatMap(spotsAlong));
  const used = [
    ...bodies.map(({ low, high }) => rectOf(low, high)),
    ...spots,
    ...letters.flatMap(({ id, width }) => {
      const at = letterPlaces.get(id);
      return at ? [around(at, width)] : [];
    }),
  ];
  const wishes = names.flatMap(({ name, at, widthM, heightM }, i): Candidate[] => {
    const room = (widthM * 1000) / scale - 1;
    const words = [name, abbreviated(name)].find((said) => wide(said, 'place') <= room);
    if (words === undefined) return [];
    const [x, y] = place.at(at);
    const aside = (heightM * 500) / scale - WORD_HEIGHT_MM / 2;
    if (aside < 0) return [];
    const tries = [0, 0.25, -0.25, 0.5, -0.5, 0.75, -0.75, 1, -1].map((share): Vec2 => [x, y + share * aside]);
    return [{ id: `${i}|${words}`, rank: 1, width: wide(words, 'place'), height: WORD_HEIGHT_MM, places: tries }];
  });
  for (const [id, [x, y]] of placeLabels(wishes, used))
    marks.push(
      text(id.slice(id.indexOf('|') + 1), [x, y + TEXT.body / 2], {
        anchor: 'middle',
        face: 'place',
        ink: 'second',
        boxed: true,
      }),
    );
  return marks;
}

const rectOf = ([x0, y0]: Vec2, [x1, y1]: Vec2): Rect => ({ x: x0, y: y0, w: x1 - x0, h: y1 - y0 });
const around = ([x, y]: Vec2, width: number): Rect => ({
  x: x - width / 2,
  y: y - WORD_HEIGHT_MM / 2,
  w: width,
  h: WORD_HEIGHT_MM,
});

const lengthOf = (points: readonly Vec2[]): number =>
  points.reduce((sum, [x, y], i) => {
    const before = points[i - 1];
    return before ? sum + portable.hypot(x - before[0], y - before[1]) : sum;
  }, 0);

function along(points: readonly Vec2[], share: number): Vec2 {
  let left = lengthOf(points) * share;
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1] as Vec2, points[i] as Vec2];
    const step = portable.hypot(b[0] - a[0], b[1] - a[1]);
    if (left <= step && step > 0) return [a[0] + ((b[0] - a[0]) * left) / step, a[1] + ((b[1] - a[1]) * left) / step];
    left -= step;
  }
  return points[points.length - 1] ?? [0, 0];
}

function spotsAlong(points: readonly Vec2[]): Rect[] {
  const length = lengthOf(points);
  const count = Math.max(1, Math.ceil(length / SPOT_MM));
  return Array.from({ length: count + 1 }, (_, i): Rect => {
    const [x, y] = along(points, i / count);
    return { x: x - 0.6, y: y - 0.6, w: 1.2, h: 1.2 };
  });
}
