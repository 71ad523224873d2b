import { type Afloat, afloat, type Effect } from '@core/assess/weights/afloat';
import type { Boat } from '@core/boat/schema/boat';
import { type JSX, useMemo } from 'react';
import { useApp } from '../../../store/app';
import { hullOf } from '../../../store/derived';
import { LEVEL_WATER } from '../../../store/hydrostatics';
import type { DisplayUnits } from '../../../store/types';
import { degreesText, figure, lengthUnit, massText, wholeLength } from '../../format';
import { Facts, Panel } from '../../inspector/parts';

/** What the parts of the arrangement do to list, trim and draught, and each tank from empty to full. */
export function ListAndTrim({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const arrangementId = useApp((state) => state.arrangementId);
  const attitude = useApp((state) => state.report?.attitude ?? null);
  const surface = hullOf(boat);
  const result = useMemo(
    () => afloat(boat, arrangementId, surface ? { surface, water: attitude ?? LEVEL_WATER } : null),
    [boat, arrangementId, surface, attitude],
  );
  const { placed, tanks, unplaced, massless } = result;
  const next = enterNext(result);
  return (
    <Panel title="List and trim from what is placed" level={3} aside={massText(placed.massKg)}>
      <p className="sub">
        The parts with new tanks full, added to the boat as it floats. Small angles, still water, slack tanks not
        counted.
      </p>
      <Facts rows={rowsOf(placed, units)} />
      {next.map((words) => (
        <p key={words} className="cannot-tell">
          {`Cannot tell yet. Enter next: ${words}`}
        </p>
      ))}
      {placed.list.known && placed.list.isLarge ? (
        <p className="warning">So large a list is a first guess: the metacentre no longer stands still.</p>
      ) : null}
      {unplaced.length + massless.length === 0 ? null : (
        <p className="quiet">
          {[
            unplaced.length === 0 ? '' : `${figure(unplaced.length)} not placed`,
            massless.length === 0 ? '' : `${figure(massless.length)} without a mass`,
          ]
            .filter((words) => words !== '')
            .join(', ')}
          : left out.
        </p>
      )}
      {tanks.length === 0 ? null : <Tanks tanks={tanks} units={units} />}
    </Panel>
  );
}

const UNKNOWN = 'cannot tell';

function rowsOf({ sinkage, trim, list }: Effect, units: DisplayUnits): readonly (readonly [string, string])[] {
  return [
    ['Sinks by', sinkage.known ? `${wholeLength(sinkage.sinkageM, units)} ${lengthUnit(units)}` : UNKNOWN],
    [
      trim.known && trim.trimM < 0 ? 'Trims by the stern' : 'Trims by the bow',
      trim.known
        ? `${wholeLength(Math.abs(trim.trimM), units)} ${lengthUnit(units)}, ${degreesText(Math.abs(trim.trimDeg), 2)}`
        : UNKNOWN,
    ],
    [list.known && list.listDeg < 0 ? 'Lists to port' : 'Lists to starboard', list.known ? listText(list) : UNKNOWN],
  ];
}

/** From a roll period the list is known only between two bounds. */
function listText({
  listDeg,
  leastDeg,
  greatestDeg,
}: {
  listDeg: number;
  leastDeg: number;
  greatestDeg: number;
}): string {
  const ends = [Math.abs(leastDeg), Math.abs(greatestDeg)].sort((a, b) => a - b);
  const [low = 0, high = 0] = ends;
  const whole = degreesText(Math.abs(listDeg), 1);
  return high - low < 0.05 ? whole : `${whole}, between ${degreesText(low, 1)} and ${degreesText(high, 1)}`;
}

/** What must be entered, each once. */
function enterNext({ placed }: Afloat): readonly string[] {
  const wanted = [placed.sinkage, placed.trim, placed.list].flatMap((told) => (told.known ? [] : [told.enterNext]));
  return [...new Set(wanted)];
}

const tankList = (listDeg: number): string =>
  Math.abs(listDeg) < 0.05 ? 'none' : `${degreesText(Math.abs(listDeg), 1)} ${listDeg < 0 ? 'port' : 'stbd'}`;

function Tanks({ tanks, units }: { readonly tanks: Afloat['tanks']; readonly units: DisplayUnits }): JSX.Element {
  return (
    <table className="mini-table" aria-label="Tanks from empty to full">
      <thead>
        <tr>
          {['Tank, empty to full', 'kg', `Sinks ${lengthUnit(units)}`, `Bow down ${lengthUnit(units)}`, 'List'].map(
            (title) => (
              <th key={title} scope="col">
                {title}
              </th>
            ),
          )}
        </tr>
      </thead>
      <tbody>
        {tanks.map(({ id, name, effect: { massKg, sinkage, trim, list } }) => (
          <tr key={id}>
            <td>{name}</td>
            <td>{figure(massKg)}</td>
            <td>{sinkage.known ? wholeLength(sinkage.sinkageM, units) : '?'}</td>
            <td>{trim.known ? wholeLength(trim.trimM, units) : '?'}</td>
            <td>{list.known ? tankList(list.listDeg) : '?'}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
