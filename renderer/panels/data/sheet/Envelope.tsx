import { carriedOnFace, halfOf } from '@core/boat/catalogue/face-places';
import type { Draft } from '@core/boat/edits';
import type { Part, Shape } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { keepTyped } from '../../../store/typed';
import { LengthField } from '../../fields/LengthField';
import { Choice, Labelled } from '../../inspector/parts';
import type { SheetDraft } from './draft';

const SIDES = ['Length', 'Width', 'Height'] as const;
const AXIS_WORDS = [
  ['x', 'Fore and aft'],
  ['y', 'Athwartships'],
  ['z', 'Upright'],
] as const;

/** Box or cylinder with its sizes; ports and service spaces keep their distances from the edges that they are measured from. */
export function Envelope({ draft, part }: { readonly draft: SheetDraft; readonly part: Part }): JSX.Element {
  const { boat, path } = draft;
  const { shape } = part;
  const head = path.join('.');
  const set = (label: string, next: Shape, typed?: readonly [string, string]): void =>
    void draft.edit(label, (own) => {
      const mine = own[path[0]][path[1]];
      if (!mine) return;
      const [before, after] = [halfOf(shape), halfOf(next)];
      for (const held of [...Object.values(mine.ports), ...Object.values(mine.services)])
        held.at = carriedOnFace(before, after, held.at, held.direction);
      mine.shape = next as Draft<Shape>;
      if (typed) keepTyped(own, `${head}.shape.${typed[0]}`, typed[1]);
    });
  const half = halfOf(shape);
  return (
    <>
      <h3>Envelope</h3>
      <p className="quiet">What it fills without its hoses: feet, lids and fittings included.</p>
      <Labelled label="Form">
        <Choice
          label="Form of the envelope"
          value={shape.type}
          options={[
            ['box', 'Box'],
            ['cylinder', 'Cylinder'],
          ]}
          choose={(type) => {
            if (type === shape.type) return;
            const sides: [number, number, number] = [2 * half[0], 2 * half[1], 2 * half[2]];
            set(
              'Form',
              type === 'box'
                ? { type, sizeM: sides }
                : { type, diameterM: Math.min(sides[1], sides[2]), lengthM: sides[0], axis: 'x' },
            );
          }}
        />
      </Labelled>
      {shape.type === 'box' ? (
        SIDES.map((words, k) => (
          <Labelled key={words} label={words}>
            <LengthField
              label={`${words} of the envelope`}
              value={shape.sizeM[k as 0 | 1 | 2]}
              typedAs={boat.typed?.[`${head}.shape.sizeM[${k}]`]}
              commit={(value, typed) => {
                const sizeM = shape.sizeM.map((old, i) => (i === k ? value : old)) as [number, number, number];
                set(words, { ...shape, sizeM }, [`sizeM[${k}]`, typed]);
              }}
            />
          </Labelled>
        ))
      ) : (
        <>
          {(['diameterM', 'lengthM'] as const).map((key) => (
            <Labelled key={key} label={key === 'diameterM' ? 'Diameter' : 'Length'}>
              <LengthField
                label={key === 'diameterM' ? 'Diameter of the envelope' : 'Length of the envelope'}
                value={shape[key]}
                typedAs={boat.typed?.[`${head}.shape.${key}`]}
                commit={(value, typed) => set('Size', { ...shape, [key]: value }, [key, typed])}
              />
            </Labelled>
          ))}
          <Labelled label="Lies">
            <Choice
              label="How the cylinder lies"
              value={shape.axis}
              options={AXIS_WORDS}
              choose={(axis) => set('Axis', { ...shape, axis })}
            />
          </Labelled>
        </>
      )}
    </>
  );
}
