import {
  foreBerth,
  foreBerthLids,
  passageOpenings,
  type Saloon,
  SIDES,
  saloonBetween,
  setteeOn,
} from './interior-furniture';

import { BOARD_M, COUNTER_M, type InteriorPlan, innerBreadth, PlanBuilder, SEAT_M, type Site } from './interior-plan';

/** Ends of the stretches, shares of the length from aft. Common practice, no source. */
const STRETCH = {
  cockpit: [0.015, 0.2],
  saloon: [0.202, 0.53],
  engine: [0.202, 0.43],
  under: [0.432, 0.53],
  lower: [0.532, 0.64],
  fore: [0.642, 0.9],
  chain: [0.902, 0.965],
} as const;

/** How much lower than the saloon's the forward sole lies, where the hull has the depth. */
const STEP_DOWN_M = 0.45;

/** A motor hull: cockpit over a lazarette, saloon over the engine space, galley and heads a step down, fore cabin, chain locker. */
export function motorInterior(site: Site): InteriorPlan {
  const { d, soleZ } = site;
  const L = d.lengthM;
  const b = new PlanBuilder();
  const at = (name: keyof typeof STRETCH): [number, number] => [STRETCH[name][0] * L, STRETCH[name][1] * L];
  const [cockpit, saloon, engine, under, lower, fore] = [
    at('cockpit'),
    at('saloon'),
    at('engine'),
    at('under'),
    at('lower'),
    at('fore'),
  ];
  const half = d.beamM / 2 + 0.1;
  const deckZ = d.midFreeboardM;
  const topZ = Math.max(deckZ + 0.3, soleZ + 1.9);
  const sole = Math.min(0.75, Math.max(0.4, 0.2 * d.beamM));
  const seatZ = soleZ + SEAT_M;
  const wellZ = Math.max(soleZ, 0.4 * deckZ, 0.25);
  const well = 0.3 * d.beamM;
  const lowerZ = Math.max(soleZ - STEP_DOWN_M, site.floorZ(...lower) + 0.15);

  b.box('cockpit', 'Cockpit well', 'cockpitWell', cockpit, [-well, well], [wellZ, deckZ + 0.2]);
  b.box('lazarette', 'Lazarette', 'lazarette', cockpit, [-half, half], [-d.draughtM, wellZ - BOARD_M], {
    bilgePumped: true,
  });
  b.box('engine', 'Engine space', 'engineSpace', engine, [-half, half], [site.floorZ(...engine), soleZ - BOARD_M], {
    bilgePumped: true,
  });
  b.box(
    'under-sole',
    'Under the saloon sole',
    'bilge',
    under,
    [-half, half],
    [site.floorZ(...under), soleZ - BOARD_M],
    { bilgePumped: true },
  );

  const back = Math.min(sole + 0.6, innerBreadth(site, (saloon[0] + saloon[1]) / 2, seatZ + 0.25) - 0.2);
  const hasBacks = back >= sole + 0.4;
  const room: Saloon = { x: saloon, sole, half, back: hasBacks ? back : null, soleZ, seatZ, topZ };
  saloonBetween(b, room);
  for (const side of SIDES)
    setteeOn(b, room, side, { floorZ: soleZ, backTopZ: Math.max(seatZ + 0.4, deckZ - 0.04), lidM: 0.7 });

  const passage = Math.min(0.36, sole);
  b.box('passage', 'Passage', 'cabin', lower, [-passage, passage], [lowerZ, topZ - 0.1]);
  b.box('heads', 'Heads', 'heads', lower, [passage + BOARD_M, half], [lowerZ - 0.05, topZ - 0.2]);
  b.box(
    'galley-locker',
    'Galley locker',
    'locker',
    lower,
    [-half, -(passage + BOARD_M)],
    [lowerZ - 0.2, lowerZ + COUNTER_M],
  );
  b.box('galley', 'Galley', 'cabin', lower, [-half, -(passage + BOARD_M)], [lowerZ + COUNTER_M + BOARD_M, topZ - 0.2]);
  b.box('fore-bilge', 'Bilge, forward', 'bilge', lower, [-passage, passage], [site.floorZ(...lower), lowerZ - BOARD_M]);
  const veeZ = Math.max(lowerZ + 0.5, 0.3);
  b.box('forepeak', 'Fore cabin', 'cabin', fore, [-half, half], [veeZ, d.midFreeboardM + 0.4], { berth: true });
  foreBerth(b, {
    x: fore,
    half,
    middle: passage,
    berthZ: veeZ,
    sideFloorZ: site.floorZ(...fore),
    floorZ: site.floorZ,
  });
  foreBerthLids(b, 'passage-sole');
  b.box(
    'chain',
    'Chain locker',
    'chainLocker',
    at('chain'),
    [-0.6, 0.6],
    [0.25 * d.bowFreeboardM, 0.9 * d.bowFreeboardM],
  );

  b.open.push(['saloon', 'passage'], ['passage', 'forepeak'], ['passage', 'galley'], ['engine', 'under-sole']);
  b.bulkheads.push(
    ['lazarette', 'engine'],
    ['under-sole', 'fore-bilge'],
    ['settee-port-fwd', 'heads'],
    ['settee-stbd-fwd', 'galley-locker'],
  );

  b.stand('cockpit', 'Cockpit sole', [(cockpit[0] + cockpit[1]) / 2, 0, wellZ], { compartment: 'cockpit' });
  const headroom = { headroomM: Math.round((topZ - soleZ) * 100) / 100 };
  b.stand('saloon-sole', 'Saloon sole', [(saloon[0] + saloon[1]) / 2, 0, soleZ], {
    compartment: 'saloon',
    ...headroom,
  });
  b.stand('passage-sole', 'Passage', [(lower[0] + lower[1]) / 2, 0, lowerZ], { compartment: 'passage' });

  const add = b.opening.bind(b);
  add({
    id: 'lazarette-hatch',
    name: 'Lazarette hatch in the cockpit sole',
    compartment: 'lazarette',
    to: 'cockpit',
    face: 'top',
    mostM: [0.6, 0.6],
    how: 'hinged',
    weatherDeck: true,
    standing: 'cockpit',
  });
  add({
    id: 'saloon-door',
    name: 'Saloon door',
    compartment: 'saloon',
    to: 'cockpit',
    face: 'aft',
    mostM: [0.7, 1.6],
    how: 'sliding',
    weatherDeck: true,
    standing: 'cockpit',
  });
  add({
    id: 'engine-hatch',
    name: 'Engine hatch in the saloon sole',
    compartment: 'engine',
    to: 'saloon',
    face: 'top',
    mostM: [0.7, 1],
    how: 'liftOut',
    standing: 'saloon-sole',
  });
  add({
    id: 'under-sole-board',
    name: 'Sole board, saloon',
    compartment: 'under-sole',
    to: 'saloon',
    face: 'top',
    mostM: [0.6, 0.7],
    how: 'liftOut',
    standing: 'saloon-sole',
  });
  passageOpenings(b, { id: 'passage-step', name: 'Step down to the passage' });
  add({
    id: 'galley-door',
    name: 'Galley locker door',
    compartment: 'galley-locker',
    to: 'passage',
    face: 'inboard',
    mostM: [0.7, 0.6],
    how: 'hinged',
    standing: 'passage-sole',
  });
  add({
    id: 'sole-forward',
    name: 'Sole board, passage',
    compartment: 'fore-bilge',
    to: 'passage',
    face: 'top',
    mostM: [0.4, 0.6],
    how: 'liftOut',
    standing: 'passage-sole',
  });
  add({
    id: 'forepeak-door',
    name: 'Fore cabin door',
    compartment: 'forepeak',
    to: 'passage',
    face: 'aft',
    mostM: [0.58, 1.2],
    how: 'hinged',
    standing: 'passage-sole',
  });
  add({
    id: 'chain-door',
    name: 'Chain locker door',
    compartment: 'chain',
    to: 'forepeak',
    face: 'aft',
    mostM: [0.4, 0.4],
    how: 'hinged',
    standing: 'passage-sole',
  });
  return b.finished(saloon[1] + BOARD_M / 2);
}
