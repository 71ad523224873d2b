import type { Boat } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { Attitude } from './hull/Attitude';
import { Heel } from './hull/Heel';
import { HydrostaticCurves, Hydrostatics } from './hull/Hydrostatics';
import { ListAndTrim } from './hull/ListAndTrim';
import { NoHull } from './hull/NoHull';
import { Skin } from './hull/Skin';
import { WeightsEntry } from './hull/Weights';

/** The hull as a body in the water: what it displaces, how it floats, what was measured of it. */
export function HullStage({ boat }: { readonly boat: Boat }): JSX.Element {
  if (!boat.hull) return <NoHull />;
  return (
    <>
      <Hydrostatics boat={boat} />
      <Heel boat={boat} />
      <Attitude boat={boat} />
      <WeightsEntry boat={boat} />
      <ListAndTrim boat={boat} />
      <HydrostaticCurves boat={boat} />
      <Skin boat={boat} />
    </>
  );
}
