import { distance, dot, type Vec3 } from '@core/base/vec';
import { lineKindOf } from '@core/boat/catalogue/line-kinds';
import type { Boat } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { pathOf } from '@core/output/views/curves';
import { type RunStyle, runStyle } from '@core/output/views/runs';
import { type ProfilePoint, trappedCrest, unrolledProfile } from '@core/runs/profile';
import type { WaterPlane } from '@core/shape/hull/types';
import { type JSX, useMemo } from 'react';
import { heeledWater } from '../../board/shape';
import { type Height, type HighOrLow, heightOf, RunProfile } from '../../charts/RunProfile';
import { useApp } from '../../store/app';
import { clipPointsOf } from '../../store/clip-points';
import { hullOf, layoutOf } from '../../store/derived';
import { useDrag } from '../../store/drag';
import { panelWords } from '../../store/panel-place';
import { clipPointSet, isToDrill } from '../../store/pulled';
import { useRunPlace } from '../../store/run-place';
import { lineInHand, markOf, thingOf } from '../../store/select';
import { placeNearest } from '../../tools/along-run';
import { degreesText, lengthFigure, lengthUnit, runFigure, runUnit, wholeLength } from '../format';
import { sentence } from '../words';

const LEVEL: WaterPlane = { up: [0, 0, 1], levelM: 0 };
/** Air in a crest lower than this is swept along or does no harm, metres: not worth a mark. */
const CREST_FROM_M = 0.005;

/** The unrolled profile of the run that one works on: what it climbs and falls, and where it lies under water. */
export function UnrolledRun({ boat }: { readonly boat: Boat }): JSX.Element {
  const line = useApp((state) => lineInHand(state.selection));
  const settled = useApp((state) => state.report?.runs.find((run) => run.lineId === line) ?? null);
  const live = useDrag((state) => (line === null ? null : (state.runs[line] ?? null)));
  const run = live ?? settled;
  if (line === null || !run || !boat.lines[line])
    return <p className="empty">Pick a run to see how it climbs and falls along its length.</p>;
  if (run.status !== 'routed')
    return <p className="empty">This line has no run to unroll. The inspector says what is in its way.</p>;
  return <Unrolled boat={boat} id={line} run={run} />;
}

interface Props {
  readonly boat: Boat;
  readonly id: string;
  readonly run: RunReport;
}

function Unrolled({ boat, id, run }: Props): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const attitude = useApp((state) => state.report?.attitude ?? null);
  const arrangementId = useApp((state) => state.arrangementId);
  const heelDeg = useApp((state) => state.shownHeelDeg);
  const marked = useRunPlace((state) => (state.marked?.line === id ? state.marked.alongM : null));
  const wish = boat.lines[id];
  const level = attitude ?? LEVEL;
  const path = useMemo(() => pathOf(run.prims), [run.prims]);
  const places = useMemo(() => unrolledPath(path, level), [path, level]);
  const heights = useMemo(() => places.map(({ alongM, heightM }): Height => [alongM, heightM]), [places]);
  const hull = hullOf(boat);
  const waters = useMemo(
    () =>
      (hull && heelDeg !== 0 ? [heelDeg, -heelDeg] : []).flatMap((deg) => {
        const water = hull && heeledWater(hull, level, deg);
        const words = `${degreesText(Math.abs(deg))} ${deg > 0 ? 'starboard' : 'port'}`;
        return water ? [{ words, points: places.map((p): Height => [p.alongM, waterAt(p, level, water)]) }] : [];
      }),
    [hull, heelDeg, level, places],
  );
  const extremes = useMemo(() => extremesOf(boat, id, run, level, units), [boat, id, run, level, units]);
  const long = run.lengthM ?? 0;
  const mark = markOf(id, wish ?? null);
  const content = CONTENT[wish ? runStyle(wish, lineKindOf(boat.lineKinds, wish.kind)) : 'other'];
  const crossings = run.holes.map((hole, index) => ({
    key: String(index),
    alongM: placeNearest(path, hole.at)?.alongM ?? 0,
    words: `\u2300 ${lengthFigure(hole.diameterM, units)}${isToDrill(boat, arrangementId, hole) ? ', drill' : ''}`,
  }));
  const clips = clipPointsOf(boat, arrangementId)
    .filter((clip) => clip.line === id)
    .map((clip) => ({
      key: clip.id,
      alongM: placeNearest(path, clip.at)?.alongM ?? 0,
      words: `Clip point ${clip.number}`,
    }));
  const height = (metres: number): string => `${metres > 5e-4 ? '+' : ''}${wholeLength(metres, units)}`;
  const placeWords = (alongM: number): string =>
    `${runFigure(alongM, units)} ${runUnit(units)} along, ${height(heightOf(heights, alongM))} ${lengthUnit(units)}`;
  const point = (alongM: number | null): void =>
    useRunPlace.setState({ marked: alongM === null ? null : { line: id, alongM } });
  const ends = wish
    ? ([wish.from, wish.to].map((end) => markOf(end.thing, thingOf(boat, end.thing))) as [string, string])
    : (['', ''] as const);
  const { panels } = layoutOf(boat, arrangementId);
  const along = [
    { key: 'from', alongM: 0, words: ends[0] },
    ...run.holes.map((hole, index) => {
      const panel = panels[hole.panelId];
      const { alongM = 0, words = '' } = crossings[index] ?? {};
      return { key: `hole ${index}`, alongM, words: `${words}: ${panel ? panelWords(boat, panel) : hole.panelId}` };
    }),
    ...clips.map(({ key, alongM, words }) => ({ key: `clip ${key}`, alongM, words })),
    ...extremes.map(({ alongM, words }) => ({ key: words, alongM, words: sentence(words) })),
    { key: 'to', alongM: long, words: ends[1] },
  ].sort((a, b) => a.alongM - b.alongM);
  const said = [
    `${mark} unrolled, ${runFigure(long, units)} ${runUnit(units)}`,
    ...extremes.map(({ words }) => words),
    ...crossings.map(({ alongM, words }) => `hole ${words} at ${runFigure(alongM, units)} ${runUnit(units)}`),
  ].join('; ');
  return (
    <div className="unrolled">
      <div className="unrolled-head">
        <span>
          <b>{`${mark} unrolled`}</b>
          {` Height above the water, ${lengthUnit(units)}; length and height to one scale`}
        </span>
        <label className="unrolled-place">
          <span>Place along it</span>
          <input
            type="range"
            min={0}
            max={Math.round(long * 1000)}
            step={10}
            value={Math.round((marked ?? 0) * 1000)}
            aria-valuetext={placeWords(marked ?? 0)}
            onChange={(event) => point(Number(event.target.value) / 1000)}
          />
        </label>
        <button type="button" className="button plain" onClick={clipPointSet}>
          {marked === null ? 'Clip point in the middle' : 'Clip point there'}
        </button>
      </div>
      <div className="unrolled-body">
        <RunProfile
          label={said}
          run={heights}
          content={content}
          waters={waters}
          crossings={crossings}
          clips={clips}
          extremes={extremes}
          ends={ends}
          cursor={marked === null ? null : { alongM: marked, words: placeWords(marked) }}
          heightFigure={height}
          alongFigure={(metres) => `${runFigure(metres, units)} ${runUnit(units)}`}
          point={point}
        />
        <ol className="along" aria-label={`Along ${mark}`} onMouseLeave={() => point(null)}>
          {along.map(({ key, alongM, words }) => (
            <li key={key}>
              <button
                type="button"
                onFocus={() => point(alongM)}
                onMouseEnter={() => point(alongM)}
                onClick={() => point(alongM)}
              >
                <span className="figures">{`${runFigure(alongM, units)} ${runUnit(units)}`}</span>
                {words}
              </button>
            </li>
          ))}
        </ol>
      </div>
    </div>
  );
}

const CONTENT: Readonly<Record<RunStyle, 'sea' | 'fresh' | 'plus' | 'draw'>> = {
  sea: 'sea',
  brine: 'sea',
  pressure: 'sea',
  fresh: 'fresh',
  dc: 'plus',
  signal: 'draw',
  gauge: 'draw',
  other: 'draw',
};

/** Every point of the drawn centre line with its way along the run and its height. */
function unrolledPath(path: readonly Vec3[], { up, levelM }: WaterPlane): readonly ProfilePoint[] {
  let alongM = 0;
  return path.map((at, k) => {
    const before = path[k - 1];
    if (before) alongM += distance(before, at);
    return { alongM, heightM: dot(at, up) - levelM, at };
  });
}

/** Height of the heeled water straight above or below a place, above the level of the boat upright. */
const waterAt = ({ at, heightM }: ProfilePoint, level: WaterPlane, heeled: WaterPlane): number =>
  heightM - (dot(at, heeled.up) - heeled.levelM) / dot(heeled.up, level.up);

/** The high point that would hold air, and the lowest place where water stays. Cables hold neither. */
function extremesOf(
  boat: Boat,
  id: string,
  run: RunReport,
  level: WaterPlane,
  units: Parameters<typeof wholeLength>[1],
): readonly HighOrLow[] {
  const medium = boat.lines[id]?.medium;
  if (medium === 'dcPower' || medium === 'signal') return [];
  const profile = unrolledProfile(run.prims, level);
  const length = (metres: number): string => `${wholeLength(metres, units)} ${lengthUnit(units)}`;
  const crest = trappedCrest(profile);
  const trough = trappedCrest(profile.map((point) => ({ ...point, heightM: -point.heightM })));
  const found: HighOrLow[] = [];
  if (crest && crest.trappedM >= CREST_FROM_M)
    found.push({
      alongM: crest.alongM,
      heightM: crest.heightM,
      words: `high point, air stands ${length(crest.trappedM)}`,
      isFault: (run.costs?.suctionM ?? 0) > 0,
    });
  if (trough && trough.trappedM >= CREST_FROM_M)
    found.push({
      alongM: trough.alongM,
      heightM: -trough.heightM,
      words: `low point, water stands ${length(trough.trappedM)}`,
      isFault: false,
    });
  return found;
}
