import type { PictureMark } from '@core/base/formulas/picture-plane';
import type { Vec2 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import { stationsInOrder } from '@core/boat/station-edits';
import { type JSX, useRef } from 'react';
import { LengthField } from '../../panels/fields/LengthField';
import { RemoveButton } from '../../panels/fields/RemoveButton';
import { figure, wholeLength } from '../../panels/format';
import { Choice, Labelled, Segmented } from '../../panels/inspector/parts';
import { PICTURE_TYPES } from '../../pictures/pictures';
import { useApp } from '../../store/app';
import { setSections } from '../store';
import { bringPicture, keepMarks, setView, takeCurve } from './trace-actions';
import {
  AXES_OF,
  CURVE_WORDS,
  CURVES_OF,
  planeOf,
  planeProblemWords,
  setTrace,
  type TracedView,
  takePicture,
  useTrace,
} from './trace-store';

const OPACITIES = ['25', '50', '75', '100'] as const;

/** The steps of tracing beside the picture: which picture, its scale, the curve. */
export function TracePanel({ boat }: { readonly boat: Boat }): JSX.Element {
  const { pictureId, view, mode, opacity, problem } = useTrace();
  const file = useRef<HTMLInputElement>(null);
  const pictures = Object.entries(boat.pictures ?? {});
  return (
    <section className="tracing-panel" aria-label="Tracing">
      <header>
        <h2>Trace a picture</h2>
        <button type="button" className="button plain" onClick={() => setSections({ dialog: null })}>
          Done
        </button>
      </header>
      <input
        ref={file}
        type="file"
        hidden
        aria-label="Picture to trace"
        accept={PICTURE_TYPES}
        onChange={(event) => {
          const chosen = event.target.files?.[0];
          event.target.value = '';
          if (chosen) void bringPicture(chosen);
        }}
      />
      <Labelled label="It shows the">
        <Choice<TracedView>
          label="View that the picture shows"
          value={view}
          options={[
            ['profile', 'Profile'],
            ['plan', 'Plan'],
            ['section', 'Section'],
          ]}
          choose={setView}
        />
      </Labelled>
      {pictures.length === 0 ? null : (
        <Labelled label="Picture">
          <Choice
            label="Picture of the boat"
            value={pictureId ?? ''}
            options={[
              ...(pictureId === null ? [['', 'Choose'] as const] : []),
              ...pictures.map(([id, { of, file: name }]) => [id, of ?? name] as const),
            ]}
            choose={(id) => takePicture(boat, id)}
          />
        </Labelled>
      )}
      <div className="actions">
        <button
          type="button"
          className={pictureId === null ? 'button' : 'button plain'}
          onClick={() => file.current?.click()}
        >
          Open a picture
        </button>
      </div>
      {problem === null ? null : (
        <p className="field-error" role="alert">
          {problem}
        </p>
      )}
      {pictureId === null ? null : (
        <>
          <Labelled label="Picture shows">
            <Segmented
              label="How strongly the picture shows, per cent"
              value={String(opacity)}
              options={OPACITIES.map((key) => [key, key] as const)}
              choose={(value) => setTrace({ opacity: Number(value) })}
            />
          </Labelled>
          <Labelled label="A click sets">
            <Segmented<'scale' | 'trace'>
              label="What a click on the picture sets"
              value={mode}
              options={[
                ['scale', 'Marks'],
                ['trace', 'Curve'],
              ]}
              choose={(next) => setTrace({ mode: next })}
            />
          </Labelled>
          <Marks />
          <Curve boat={boat} />
        </>
      )}
    </section>
  );
}

const MARKS_GIVE = ['', '', 'scale and turn', 'scale, stretch and skew', 'scale and perspective'] as const;

function Marks(): JSX.Element {
  const { marks, view, pictureId } = useTrace();
  const found = planeOf(marks);
  const axes = AXES_OF[view];
  const place = (index: number, axis: 0 | 1, value: number): void =>
    keepMarks(
      marks.map((mark, i): PictureMark => {
        if (i !== index) return mark;
        const at: Vec2 = axis === 0 ? [value, mark.place[1]] : [mark.place[0], value];
        return { ...mark, place: at };
      }),
    );
  return (
    <>
      <h3>Scale</h3>
      <p className="sub">Two marks of known place scale the picture, two more straighten it.</p>
      {marks.length === 0 ? null : (
        <table className="mini-table" aria-label="Marks of the scale">
          <thead>
            <tr>
              <th scope="col">Mark</th>
              <th scope="col">{axes[0]}</th>
              <th scope="col">{axes[1]}</th>
              <th scope="col">
                <span className="spoken">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {marks.map((mark, i) => (
              <tr key={`${pictureId} ${mark.pixel.join(' ')}`}>
                <td>{i + 1}</td>
                {([0, 1] as const).map((axis) => (
                  <td key={axis}>
                    <LengthField
                      label={`${axes[axis]} of mark ${i + 1}`}
                      value={mark.place[axis]}
                      commit={(value) => place(i, axis, value)}
                    />
                  </td>
                ))}
                <td>
                  <RemoveButton
                    label={`Remove mark ${i + 1}`}
                    remove={() => keepMarks(marks.filter((_, k) => k !== i))}
                  />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {marks.length === 2 ? <Distance marks={[marks[0] as PictureMark, marks[1] as PictureMark]} /> : null}
      {found.ok ? (
        <p className="sub">
          {marks.length} marks: {MARKS_GIVE[marks.length] ?? ''}; a pixel is{' '}
          {figure(found.plane.metresPerPixel * 1000, 1)} mm.
        </p>
      ) : (
        <p className={marks.length < 2 ? 'quiet' : 'field-error'} role={marks.length < 2 ? undefined : 'alert'}>
          {planeProblemWords(found.problem)}
        </p>
      )}
    </>
  );
}

/** Where only the distance between two marks is known: the second is put level with the first, or above it. */
function Distance({ marks: [one, two] }: { readonly marks: readonly [PictureMark, PictureMark] }): JSX.Element {
  const dx = two.pixel[0] - one.pixel[0];
  const dy = two.pixel[1] - one.pixel[1];
  const isLevel = Math.abs(dx) >= Math.abs(dy);
  const apart = Math.hypot(two.place[0] - one.place[0], two.place[1] - one.place[1]);
  return (
    <Labelled label={isLevel ? '1 to 2, level' : '1 to 2, upright'}>
      <LengthField
        label={`Distance from mark 1 to mark 2, taken as ${isLevel ? 'level' : 'upright'}`}
        value={apart === 0 ? null : apart}
        placeholder="or its distance"
        commit={(value) => {
          const by: Vec2 = isLevel ? [Math.sign(dx) * value, 0] : [0, -Math.sign(dy) * value];
          keepMarks([one, { ...two, place: [one.place[0] + by[0], one.place[1] + by[1]] }]);
        }}
      />
    </Labelled>
  );
}

function Curve({ boat }: { readonly boat: Boat }): JSX.Element {
  const { view, curve, points, marks, xM, waiting, mode } = useTrace();
  const units = useApp((state) => state.displayUnits);
  const isScaled = planeOf(marks).ok;
  const curves = CURVES_OF[view];
  const order = boat.hull ? stationsInOrder(boat.hull) : [];
  return (
    <>
      <h3>Curve</h3>
      {curves.length > 1 ? (
        <Labelled label="Trace the">
          <Segmented
            label="What is traced"
            value={curve}
            options={curves.map((key) => [key, CURVE_WORDS[key]] as const)}
            choose={(next) => setTrace({ curve: next, points: [] })}
          />
        </Labelled>
      ) : null}
      {view === 'section' ? (
        <Labelled label="Section at x">
          <LengthField
            label="Where the section stands, from aft"
            value={xM}
            commit={(value) => setTrace({ xM: value })}
          />
        </Labelled>
      ) : null}
      {view === 'section' && order.length > 0 ? (
        <Labelled label="or at station">
          <Choice
            label="Station that is traced"
            value={order.find(([, station]) => Math.abs(station.xM - xM) < 0.001)?.[0] ?? ''}
            options={[
              ['', 'a new one'] as const,
              ...order.map(([id, station], number) => [id, `${number}, ${wholeLength(station.xM, units)}`] as const),
            ]}
            choose={(id) => setTrace({ xM: boat.hull?.stations[id]?.xM ?? xM })}
          />
        </Labelled>
      ) : null}
      <p className="sub">
        {!isScaled
          ? 'Scale the picture first.'
          : mode === 'scale'
            ? 'Choose Curve, then click along the line.'
            : view === 'section'
              ? 'Click from the keel to the sheer, on either side.'
              : 'Click along the line from end to end.'}{' '}
        {points.length > 0 ? `${points.length} points.` : ''}
        {waiting.length > 0 ? ` ${waiting.length} section waits for a second one.` : ''}
      </p>
      <div className="actions">
        <button type="button" className="button" disabled={!isScaled || points.length < 2} onClick={takeCurve}>
          Take the curve
        </button>
        <button
          type="button"
          className="button plain"
          disabled={points.length === 0}
          onClick={() => setTrace({ points: points.slice(0, -1) })}
        >
          Last point back
        </button>
      </div>
    </>
  );
}
