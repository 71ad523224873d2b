import type { Vec2 } from '../../base/vec';
import { SIDES } from './interior-furniture';
import { BOARD_M, COUNTER_M, type InteriorPlan, PlanBuilder, SEAT_M, type Site } from './interior-plan';

/** Ends of the stretches of one hull, shares of the length from aft. Common practice, no source. */
const STRETCH = {
  stern: [0.02, 0.085],
  engine: [0.087, 0.2],
  aft: [0.202, 0.4],
  mid: [0.402, 0.62],
  fore: [0.622, 0.82],
  bow: [0.822, 0.95],
} as const;

/**
 * The two hulls of a catamaran: stern locker, engine, aft cabin, passage with galley (starboard) or heads (port) and lockers, fore
 * cabin, bow locker. Bridge deck and cockpit are not drawn: a hull's own section cannot hold them.
 */
export function catamaranInterior(site: Site): InteriorPlan {
  const b = new PlanBuilder();
  for (const hull of SIDES) oneHull(b, site, hull);
  return b.finished(STRETCH.mid[1] * site.d.lengthM + BOARD_M / 2);
}

function oneHull(b: PlanBuilder, site: Site, [key, words, sign]: (typeof SIDES)[number]): void {
  const { d, soleZ } = site;
  const L = d.lengthM;
  const at = (name: keyof typeof STRETCH): [number, number] => [STRETCH[name][0] * L, STRETCH[name][1] * L];
  const centre = site.hull.offsetM;
  const half = d.hullBeamM / 2 + 0.1;
  /** Spans and outlines by their distance outward from this hull's centre. */
  const y = (from: number, to: number): [number, number] =>
    sign > 0 ? [centre + from, centre + to] : [-(centre + to), -(centre + from)];
  const outline = (points: readonly Vec2[]): Vec2[] => points.map(([out, z]): Vec2 => [sign * (centre + out), z]);
  const id = (name: string): string => `${key}-${name}`;
  const named = (name: string): string => `${name}, ${words}`;
  const [mid, aft, fore] = [at('mid'), at('aft'), at('fore')];
  const deckZ = d.midFreeboardM;
  const topZ = Math.max(deckZ, soleZ + Math.min(1.95, Math.max(1.4, 1.5 + 0.05 * (L - 7))));
  const sole = Math.min(0.36, Math.max(0.22, 0.19 * d.hullBeamM));
  const counterZ = soleZ + COUNTER_M;
  const seatZ = soleZ + SEAT_M;
  const berthZ = Math.max(soleZ + 0.55, 0.1);

  b.box(id('stern'), named('Stern locker'), 'lazarette', at('stern'), y(-half, half), [
    0.15,
    d.sternFreeboardM - BOARD_M,
  ]);
  b.box(id('engine'), named('Engine space'), 'engineSpace', at('engine'), y(-half, half), [
    -d.draughtM,
    d.sternFreeboardM - BOARD_M,
  ]);
  for (const [part, where, x] of [
    ['aft', 'aft', aft],
    ['fore', 'fore', fore],
  ] as const) {
    b.box(
      id(`${part}-cabin`),
      named(`${where === 'aft' ? 'Aft' : 'Fore'} cabin`),
      'cabin',
      x,
      y(-half, half),
      [berthZ, topZ],
      { berth: true },
    );
    b.box(id(`${part}-void`), named(`Void under the ${where} berth`), 'void', x, y(-half, half), [
      site.floorZ(...x),
      berthZ - BOARD_M,
    ]);
    b.opening({
      id: id(`${part}-lid`),
      name: named(`Lid in the ${where} berth`),
      compartment: id(`${part}-void`),
      to: id(`${part}-cabin`),
      face: 'top',
      mostM: [0.6, 0.9],
      how: 'liftOut',
      moveFirst: ['Berth cushion'],
      standing: id('sole'),
    });
    b.open.push([id('passage'), id(`${part}-cabin`)]);
    b.opening({
      id: id(`${part}-door`),
      name: named(`${where === 'aft' ? 'Aft' : 'Fore'} cabin door`),
      compartment: id(`${part}-cabin`),
      to: id('passage'),
      face: where === 'aft' ? 'forward' : 'aft',
      mostM: [0.56, 1.3],
      how: 'hinged',
      standing: id('sole'),
    });
  }
  const inboard = sole + BOARD_M;
  b.section(
    id('passage'),
    sign > 0 ? 'Passage and heads, port' : 'Passage and galley, starboard',
    'cabin',
    outline([
      [-sole, soleZ],
      [sole, soleZ],
      [sole, counterZ + BOARD_M],
      [half, counterZ + BOARD_M],
      [half, topZ],
      [-half, topZ],
      [-half, seatZ],
      [-sole, seatZ],
    ]),
    mid,
  );
  const parted = (mid[0] + mid[1]) / 2;
  for (const [part, where, x] of [
    ['aft', 'aft', [mid[0], parted - BOARD_M / 2]],
    ['fwd', 'forward', [parted + BOARD_M / 2, mid[1]]],
  ] as const) {
    const outer = id(`outer-${part}`);
    b.box(outer, `${sign > 0 ? 'Vanity' : 'Galley'} locker, ${words} ${where}`, 'locker', x, y(inboard, half), [
      soleZ - 0.25,
      counterZ,
    ]);
    b.opening({
      id: `${outer}-door`,
      name: `Door of the ${sign > 0 ? 'vanity' : 'galley'} locker, ${words} ${where}`,
      compartment: outer,
      to: id('passage'),
      face: 'inboard',
      mostM: [0.8, 0.75],
      how: 'hinged',
      standing: id('sole'),
    });
    const inner = id(`inner-${part}`);
    b.box(inner, `Seat locker, ${words} ${where}`, 'locker', x, y(-half, -inboard), [soleZ - 0.25, seatZ - BOARD_M]);
    b.opening({
      id: `${inner}-lid`,
      name: `Lid of the seat locker, ${words} ${where}`,
      compartment: inner,
      to: id('passage'),
      face: 'top',
      mostM: [0.5, 0.8],
      how: 'liftOut',
      standing: id('sole'),
    });
  }
  b.box(id('bilge'), named('Bilge'), 'bilge', mid, y(-sole, sole), [site.floorZ(...mid), soleZ - BOARD_M], {
    bilgePumped: true,
  });
  b.box(id('bow'), named('Bow locker'), 'locker', at('bow'), y(-half, half), [0.1, d.bowFreeboardM - 0.1]);

  b.bulkheads.push(
    [id('engine'), id('aft-void')],
    [id('aft-void'), id('outer-aft')],
    [id('fore-void'), id('outer-fwd')],
  );
  b.stand(id('sole'), named('Passage'), [parted, sign * centre, soleZ], { compartment: id('passage') });
  b.stand(id('deck'), named('Side deck'), [0.12 * L, sign * (centre - 0.4 * d.hullBeamM), d.sternFreeboardM], {
    posture: 'kneel',
  });
  const add = b.opening.bind(b);
  add({
    id: id('companionway'),
    name: named('Steps from the bridge deck'),
    compartment: id('passage'),
    to: 'outside',
    face: 'top',
    mostM: [0.6, 0.7],
    how: 'open',
    standing: id('sole'),
  });
  add({
    id: id('engine-hatch'),
    name: named('Engine hatch'),
    compartment: id('engine'),
    to: 'outside',
    face: 'top',
    mostM: [0.7, 0.9],
    how: 'hinged',
    weatherDeck: true,
    standing: id('deck'),
  });
  add({
    id: id('stern-hatch'),
    name: named('Stern locker hatch'),
    compartment: id('stern'),
    to: 'outside',
    face: 'top',
    mostM: [0.5, 0.45],
    how: 'hinged',
    weatherDeck: true,
    standing: id('deck'),
  });
  add({
    id: id('bow-hatch'),
    name: named('Bow locker hatch'),
    compartment: id('bow'),
    to: 'outside',
    face: 'top',
    mostM: [0.5, 0.5],
    how: 'hinged',
    weatherDeck: true,
    standing: id('deck'),
  });
  add({
    id: id('sole-board'),
    name: named('Sole board'),
    compartment: id('bilge'),
    to: id('passage'),
    face: 'top',
    mostM: [0.4, 0.7],
    how: 'liftOut',
    standing: id('sole'),
  });
}
