import type { Boat } from './schema/boat';

/** Sea water of 35 g/kg at about 15 degrees Celsius, rounded as the trade does, kg/m3. Common practice, no source. */
export const SEA_WATER_KG_M3 = 1025;

/** Density of the water that the boat floats in, kg/m3. */
export const waterDensityOf = ({ weights }: Pick<Boat, 'weights'>): number =>
  weights?.waterDensityKgM3 ?? SEA_WATER_KG_M3;
