import { AXES } from '@core/base/vec';
import { gradeM } from '@core/boat/accuracy';
import type { Boat } from '@core/boat/schema/boat';
import type { JSX, ReactNode } from 'react';
import { measureWords } from '../board/measuring/measure-words';
import { degreesText, figure, lengthFigure, lengthUnit, massText, wholeLength } from '../panels/format';
import { plainWords } from '../panels/words';
import { hasUnsaved, hullEnds, useApp } from '../store/app';
import { useCursor } from '../store/cursor';
import { useDrawing } from '../store/drawing';
import { floatOf } from '../store/floating';

/** Pixels in a metre of screen: 96 in an inch, as CSS counts. */
const PIXELS_PER_METRE_OF_SCREEN = 96 / 0.0254;

/** The status bar as the drawing's title block. */
export function TitleBlock(): JSX.Element {
  const boat = useApp((state) => state.boat);
  const document = useApp((state) => state.document);
  const unsaved = useApp(hasUnsaved);
  return (
    <footer className="title-block">
      {boat ? <Boats boat={boat} /> : null}
      <div className="spring" />
      {boat ? <Section boat={boat} /> : null}
      <Measured />
      <Cursor />
      {boat ? <Tape boat={boat} /> : null}
      <Scale />
      {boat ? (
        <Cell label="Saved" wide>
          {unsaved ? 'not yet' : (document.savedAt ?? 'no edits')}
        </Cell>
      ) : null}
    </footer>
  );
}

function Cell({
  label,
  wide = false,
  children,
}: {
  readonly label: string;
  /** Left out on narrow screens. */
  readonly wide?: boolean;
  readonly children: ReactNode;
}): JSX.Element {
  return (
    <div className={wide ? 'cell wide' : 'cell'}>
      <span className="label">{label}</span>
      <span className={label === 'Boat' ? 'boat' : undefined}>{children}</span>
    </div>
  );
}

function Boats({ boat }: { readonly boat: Boat }): JSX.Element {
  const attitude = useApp((state) => state.report?.attitude ?? null);
  const heel = useApp((state) => state.shownHeelDeg);
  // How she floats is known once she has been judged.
  const float = attitude && floatOf(boat, attitude);
  return (
    <>
      <Cell label="Boat">{boatWords(boat)}</Cell>
      {float === null ? null : (
        <>
          <Cell label="Displacement">{massText(float.displacementKg)}</Cell>
          <Cell label="Draught">{figure(float.draughtM, 2)} m</Cell>
        </>
      )}
      {boat.hull === undefined ? null : (
        <Cell label="Heel">
          {heel === 0 ? 'level' : `${degreesText(Math.abs(heel))} ${heel > 0 ? 'stbd' : 'port'}`}
        </Cell>
      )}
      {attitude === null || boat.hull === undefined ? null : (
        <Cell label="List, trim" wide>
          {leaningWords(attitude.listDeg, attitude.trimDeg)}
        </Cell>
      )}
    </>
  );
}

/** `Sandwort, 11.0 m long keel` */
function boatWords(boat: Boat): string {
  const [aft, forward] = hullEnds(boat);
  const form = boat.hull?.form === undefined ? '' : ` ${plainWords(boat.hull.form)}`;
  return boat.hull ? `${boat.name}, ${figure(forward - aft, 1)} m${form}` : boat.name;
}

function leaningWords(listDeg: number, trimDeg: number): string {
  const words = [leaning(listDeg, 'stbd', 'port'), leaning(trimDeg, 'by the bow', 'by the stern')];
  return words.every((word) => word === 'none') ? 'none' : words.join(', ');
}

/** Below what a tape can tell it is level. */
const leaning = (deg: number, positive: string, negative: string): string =>
  Math.abs(deg) < 0.05 ? 'none' : `${degreesText(Math.abs(deg), 1)} ${deg > 0 ? positive : negative}`;

/** The section plane as a slider: what the cut mark on the drawing does by mouse, this does by keys too. */
function Section({ boat }: { readonly boat: Boat }): JSX.Element {
  const sectionX = useApp((state) => state.sectionX);
  const setSectionX = useApp((state) => state.setSectionX);
  const [aft, forward] = hullEnds(boat);
  return (
    <Cell label="Section A">
      <span className="section-slider">
        <input
          type="range"
          className="slider-input"
          aria-label="Section A, metres from aft"
          min={aft}
          max={forward}
          step={0.01}
          value={sectionX}
          onChange={(event) => setSectionX(Number(event.target.value))}
        />
        <span>{figure(sectionX, 2)} m</span>
      </span>
    </Cell>
  );
}

/** What the tape reads now, else what it read last, as long as that stands on the drawing. */
function Measured(): JSX.Element | null {
  const last = useDrawing((state) => state.measures.at(-1));
  const units = useApp((state) => state.displayUnits);
  return last ? <Cell label="Measured">{measureWords(last, units)}</Cell> : null;
}

function Cursor(): JSX.Element {
  const at = useCursor((state) => state.at);
  const units = useApp((state) => state.displayUnits);
  const words = at
    ? AXES.map((axis, index) => {
        const value = at[index as 0 | 1 | 2];
        return value === null ? null : `${axis} ${wholeLength(value, units)}`;
      })
        .filter((word) => word !== null)
        .join(' ')
    : '\u2013';
  return (
    <Cell label="Cursor">
      <span className="cursor">{words}</span>
    </Cell>
  );
}

/** The hull's grade stands for the boat; each thing carries its own. */
function Tape({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const grade = boat.hull?.grade ?? 'taped';
  return (
    <Cell label="Tape, hull">
      {'\u00b1'}
      {lengthFigure(gradeM(boat, grade), units)} {lengthUnit(units)}
    </Cell>
  );
}

function Scale(): JSX.Element {
  const pixels = useCursor((state) => state.pixelsPerMetre);
  return <Cell label="Scale">1 : {figure(PIXELS_PER_METRE_OF_SCREEN / pixels)}</Cell>;
}
