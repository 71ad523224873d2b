import { hull } from '@core/boat/schema/hull';

/** A box 10 m long, 3 m wide, 0.6 m deep with 1 m of freeboard. */
export const boxHull = () => {
  const points: [number, number][] = [
    [0, -0.6],
    [1.5, -0.6],
    [1.5, 1],
  ];
  return hull.parse({
    stations: Object.fromEntries([0, 2.5, 5, 7.5, 10].map((xM) => [`s${xM * 10}`, { xM, points, knuckles: [1] }])),
  });
};
