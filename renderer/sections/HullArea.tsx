import type { Boat } from '@core/boat/schema/boat';
import { type JSX, lazy, Suspense } from 'react';
import { useShallow } from 'zustand/react/shallow';
import { Board } from '../board/Board';
import { LengthField } from '../panels/fields/LengthField';
import { lengthUnit, wholeLength } from '../panels/format';
import { Segmented } from '../panels/inspector/parts';
import { useApp } from '../store/app';
import { addStationAt, middleOfGap } from './actions';
import { HullWays } from './HullWays';
import { SectionBoard } from './SectionBoard';
import { activeStationId, setSections, useSections } from './store';

const FormDialog = lazy(() => import('./FormDialog'));
const OffsetsDialog = lazy(() => import('./OffsetsDialog'));
const TracingBoard = lazy(() => import('./tracing/TracingBoard'));

/** The board area at stage Hull: the section board, or the general drawing; without a hull the ways to one. */
export function HullArea({ boat }: { readonly boat: Boat }): JSX.Element {
  const board = useSections((state) => state.board);
  const dialog = useSections((state) => state.dialog);
  return (
    <div className="hull-area">
      <Tools boat={boat} />
      <div className="hull-board">
        {dialog === 'trace' ? (
          <Suspense fallback={null}>
            <TracingBoard boat={boat} />
          </Suspense>
        ) : board === 'drawing' ? (
          <Board />
        ) : boat.hull ? (
          <SectionBoard boat={boat} hull={boat.hull} />
        ) : (
          <HullWays />
        )}
      </div>
      {dialog === 'form' ? (
        <Suspense fallback={null}>
          <FormDialog />
        </Suspense>
      ) : null}
      {dialog === 'offsets' || dialog === 'inside' ? (
        <Suspense fallback={null}>
          <OffsetsDialog boat={boat} fromInside={dialog === 'inside'} />
        </Suspense>
      ) : null}
    </div>
  );
}

const LEAST_SPACING_M = 0.02;
const LEAST_TOOTH_M = 0.01;
const LONGEST_TOOTH_M = 0.5;

function Tools({ boat }: { readonly boat: Boat }): JSX.Element {
  const { board, comb, combScaleM, lines, waterlinesM, buttocksM, stationId, dialog } = useSections(
    // What a held point changes at every step is not among these.
    useShallow(({ held: _, refusal: __, point: ___, ...settings }) => settings),
  );
  const units = useApp((state) => state.displayUnits);
  const { hull } = boat;
  const id = activeStationId(boat, stationId);
  const isSections = board === 'sections' && hull !== undefined && dialog !== 'trace';
  return (
    <div className="hull-tools" role="toolbar" aria-label="Hull drawing">
      <Segmented
        label="What the board shows"
        value={board}
        options={[
          ['sections', 'Sections'],
          ['drawing', 'General drawing'],
        ]}
        choose={(next) => setSections({ board: next, dialog: null })}
      />
      {isSections ? (
        <>
          <label className="check">
            <input type="checkbox" checked={comb} onChange={(event) => setSections({ comb: event.target.checked })} />
            Comb
          </label>
          <input
            type="range"
            className="slider-input comb-scale"
            aria-label={`Length of the comb, ${wholeLength(combScaleM, units)} ${lengthUnit(units)} for one per metre`}
            title={`${wholeLength(combScaleM, units)} ${lengthUnit(units)} for one per metre`}
            min={LEAST_TOOTH_M}
            max={LONGEST_TOOTH_M}
            step={0.01}
            disabled={!comb}
            value={combScaleM}
            onChange={(event) => setSections({ combScaleM: Number(event.target.value) })}
          />
          <label className="check">
            <input type="checkbox" checked={lines} onChange={(event) => setSections({ lines: event.target.checked })} />
            Waterlines
          </label>
          <LengthField
            label="Spacing of the waterlines"
            value={waterlinesM}
            commit={(value) => setSections({ waterlinesM: Math.max(LEAST_SPACING_M, value) })}
          />
          <span>buttocks</span>
          <LengthField
            label="Spacing of the buttocks"
            value={buttocksM}
            commit={(value) => setSections({ buttocksM: Math.max(LEAST_SPACING_M, value) })}
          />
        </>
      ) : null}
      <span className="spring" />
      {isSections && hull && id !== null ? (
        <button type="button" className="button plain" onClick={() => addStationAt(middleOfGap(hull, id))}>
          Add a station
        </button>
      ) : null}
      <button type="button" className="button plain" onClick={() => setSections({ dialog: 'offsets' })}>
        Offsets
      </button>
      <button
        type="button"
        className="button plain"
        aria-pressed={dialog === 'trace'}
        onClick={() => setSections({ dialog: dialog === 'trace' ? null : 'trace' })}
      >
        Trace
      </button>
    </div>
  );
}
