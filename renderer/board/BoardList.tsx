import type { Vec3 } from '@core/base/vec';
import { drawnBounds } from '@core/boat/interior/placing';
import type { Boat } from '@core/boat/schema/boat';
import { type CSSProperties, type KeyboardEvent, memo, type Ref } from 'react';
import { clipPointsOf } from '../store/clip-points';
import { compartmentName, nameOfId, sameSelection, thingsOf } from '../store/select';
import type { Selection } from '../store/types';
import { millimetres } from './paint/pen';
import type { Scene } from './scene';
import { boxOf } from './things';

/** Present for keyboard and screen reader, not for the eye: the canvas draws what this list says. */
const HIDDEN: CSSProperties = {
  position: 'absolute',
  width: 1,
  height: 1,
  margin: -1,
  overflow: 'hidden',
  clipPath: 'inset(50%)',
  whiteSpace: 'nowrap',
  contain: 'strict',
  isolation: 'isolate',
};

const HELP =
  'Arrow keys move what is picked, or the face in hand, in the active view by 10 millimetres, with shift by 1. Page up and page down pick the next thing, control A all. R turns it by a quarter. J joins two ports, M measures. Control C, control V and control D copy, paste and duplicate. W asks where the picked part can go: then page up and page down look at places, Enter moves it there. K sets a clip point on the picked run, delete takes it away; I pins the run as built, A shows other ways for it. V changes the view. Square brackets move the section. Plus, minus and 0 zoom. Question mark shows all keys, control K finds every command.';

interface Props {
  readonly options: readonly ListedOption[];
  readonly selection: Selection | null;
  readonly alsoSelected: readonly Selection[];
  readonly listRef: Ref<HTMLDivElement>;
  onKeyDown(event: KeyboardEvent): void;
  onKeyUp(event: KeyboardEvent): void;
  onFocusChange(focused: boolean): void;
}

export interface ListedOption {
  readonly selection: Selection;
  readonly text: string;
}

/** Things, runs, clips and the interior in the order of the tables, in words. */
export function listed(scene: Pick<Scene, 'boat' | 'arrangementId' | 'placed' | 'layout' | 'report'>): ListedOption[] {
  const placed = new Map(scene.placed.map((p) => [p.id, p]));
  const things = thingsOf(scene.boat).flatMap((row): ListedOption[] => {
    const here = placed.get(row.id);
    if (!here) return [];
    const [x, y, z] = here.pose.at;
    const where = compartmentName(scene.boat, scene.layout.compartmentAt(here.pose.at));
    const { low, high } = boxOf(here);
    const size = ([0, 1, 2] as const).map((k) => millimetres(high[k] - low[k])).join(' by ');
    const text = `${nameOfId(scene.boat, row.id)}, in ${where}, x ${millimetres(x)} y ${millimetres(y)} z ${millimetres(z)}, ${size} millimetres`;
    return [{ selection: { kind: 'thing', id: row.id }, text }];
  });
  const runs = (scene.report?.runs ?? []).map((run): ListedOption => {
    const length = run.status === 'routed' && run.lengthM !== null ? `${run.lengthM.toFixed(2)} metres` : 'not routed';
    return { selection: { kind: 'line', id: run.lineId }, text: `${nameOfId(scene.boat, run.lineId)}, ${length}` };
  });
  const clips = clipPointsOf(scene.boat, scene.arrangementId).map(
    ({ line, id, number, at: [x, y, z] }): ListedOption => {
      const text = `Clip point ${number} of ${nameOfId(scene.boat, line)}, x ${millimetres(x)} y ${millimetres(y)} z ${millimetres(z)}`;
      return { selection: { kind: 'clipPoint', id, line }, text };
    },
  );
  const crossings = (scene.report?.runs ?? []).flatMap((run) =>
    run.holes.map(({ at: [x, y, z], diameterM, existing }, index): ListedOption => {
      const what = `Crossing ${index + 1} of ${nameOfId(scene.boat, run.lineId)}, ${existing ? 'hole' : 'to drill'}`;
      const text = `${what} ${millimetres(diameterM)} millimetres, x ${millimetres(x)} y ${millimetres(y)} z ${millimetres(z)}`;
      return { selection: { kind: 'crossing', id: String(index), line: run.lineId }, text };
    }),
  );
  return [...things, ...runs, ...clips, ...crossings, ...placesOf(scene.boat)];
}

/** Compartments, and what hangs on their faces. */
function placesOf(boat: Boat): ListedOption[] {
  const at = ([x, y, z]: Vec3): string => `x ${millimetres(x)} y ${millimetres(y)} z ${millimetres(z)}`;
  const size = (widthM: number, heightM: number): string =>
    `${millimetres(widthM)} by ${millimetres(heightM)} millimetres`;
  const compartments = Object.entries(boat.compartments).map(([id, own]): ListedOption => {
    const [low, high] = drawnBounds(own);
    const sizes = ([0, 1, 2] as const).map((k) => millimetres(high[k] - low[k])).join(' by ');
    return { selection: { kind: 'compartment', id }, text: `${own.name}, from ${at(low)}, ${sizes} millimetres` };
  });
  const openings = Object.entries(boat.openings).map(([id, own]): ListedOption => {
    const text = `${own.name}, opening of ${compartmentName(boat, own.compartment)}, ${at(own.at)}, ${size(own.widthM, own.heightM)}`;
    return { selection: { kind: 'opening', id }, text };
  });
  const surfaces = Object.entries(boat.mountingSurfaces).map(([id, own]): ListedOption => {
    const text = `${own.name ?? id}, mounting surface, ${at(own.at)}, ${size(own.widthM, own.heightM)}`;
    return { selection: { kind: 'surface', id }, text };
  });
  const standing = Object.entries(boat.standingPlaces).map(
    ([id, own]): ListedOption => ({
      selection: { kind: 'standingPlace', id },
      text: `${own.name}, standing place, ${at(own.at)}`,
    }),
  );
  return [...compartments, ...openings, ...surfaces, ...standing];
}

const optionId = (selection: Selection): string =>
  `board-${selection.kind}-${'line' in selection ? `${selection.line}-` : ''}${selection.id}`;

export const BoardList = memo(function BoardList({
  options,
  selection,
  alsoSelected,
  listRef,
  onKeyDown,
  onKeyUp,
  onFocusChange,
}: Props) {
  const active = selection && options.some((o) => sameSelection(o.selection, selection));
  return (
    <div style={HIDDEN}>
      <p id="board-help">{HELP}</p>
      <div
        ref={listRef}
        id="board-list"
        role="listbox"
        tabIndex={0}
        aria-multiselectable="true"
        aria-label="Things and runs on the drawing board"
        aria-describedby="board-help"
        aria-activedescendant={active && selection ? optionId(selection) : undefined}
        onKeyDown={onKeyDown}
        onKeyUp={onKeyUp}
        onFocus={(event) => onFocusChange(event.currentTarget.matches(':focus-visible'))}
        onBlur={() => onFocusChange(false)}
        data-testid="board-list"
      >
        {options.map(({ selection: option, text }) => (
          <div
            key={optionId(option)}
            id={optionId(option)}
            role="option"
            tabIndex={-1}
            aria-selected={[selection, ...alsoSelected].some((one) => sameSelection(one, option))}
          >
            {text}
          </div>
        ))}
      </div>
    </div>
  );
});
