import type { Vec2 } from '../../base/vec';
import { foreBerth, onSide, type Saloon, SIDES, saloonBetween, setteeOn } from './interior-furniture';
import {
  BOARD_M,
  COUNTER_M,
  type InteriorPlan,
  innerBreadth,
  mirrored,
  PlanBuilder,
  SEAT_M,
  type Site,
} from './interior-plan';
import { sailOpenings } from './interior-sail-openings';

/** Below this length heads and hanging locker are left out. */
const HEADS_FROM_M = 8.2;
/** Length of a quarter berth, and the least room behind it that is worth leaving. Common practice, no source. */
const BERTH_M = 2.1;
const LEAST_REST_M = 0.4;
/** Ends of the stretches, shares of the length from aft. Common practice, no source. */
const STRETCH = {
  lazarette: [0.012, 0.12],
  steering: [0.122, 0.195],
  cockpit: [0.122, 0.326],
  engine: [0.197, 0.326],
  galley: [0.328, 0.445],
  saloon: [0.447, 0.626],
  heads: [0.628, 0.717],
  fore: [0.719, 0.895],
  chain: [0.897, 0.965],
} as const;

/**
 * A sailing monohull with an aft cockpit: lazarette, cockpit with locker and quarter berth, engine under the companionway, galley
 * and chart table, saloon with two settees, heads and hanging locker, fore cabin, chain locker.
 */
export function sailInterior(site: Site): InteriorPlan {
  const { d, soleZ } = site;
  const L = d.lengthM;
  const b = new PlanBuilder();
  const at = (name: keyof typeof STRETCH): [number, number] => [STRETCH[name][0] * L, STRETCH[name][1] * L];
  const hasHeads = L >= HEADS_FROM_M;
  const galley = at('galley');
  const heads = at('heads');
  const fore: [number, number] = hasHeads ? at('fore') : [STRETCH.heads[0] * L, STRETCH.fore[1] * L];
  const saloon = at('saloon');
  const half = d.beamM / 2 + 0.1;
  const sole = Math.min(0.55, Math.max(0.26, 0.15 * d.beamM));
  const well = Math.min(0.45, Math.max(0.28, 0.12 * d.beamM));
  const deckZ = d.midFreeboardM;
  const headM = Math.min(1.95, Math.max(1.35, 1.5 + 0.05 * (L - 7)));
  const topZ = Math.max(deckZ + 0.05, soleZ + headM);
  const seatZ = soleZ + SEAT_M;
  const counterZ = soleZ + COUNTER_M;
  const wellZ = Math.max(0.25, 0.4 * deckZ);
  const underSole = soleZ - BOARD_M;
  const lowest = -d.draughtM;

  // Aft
  b.box('lazarette', 'Lazarette', 'lazarette', at('lazarette'), [-half, half], [0.16 * deckZ, deckZ]);
  b.box('cockpit', 'Cockpit well', 'cockpitWell', at('cockpit'), [-well, well], [wellZ, deckZ + 0.25]);
  const engineHalf = Math.max(well, Math.min(0.6, 0.17 * d.beamM));
  b.box('steering', 'Steering space', 'void', at('steering'), [-engineHalf, engineHalf], [lowest / 2, wellZ - BOARD_M]);
  const engineFloor = Math.max(site.floorZ(...at('engine')), soleZ - 0.35);
  b.box(
    'engine',
    'Engine space',
    'engineSpace',
    at('engine'),
    [-engineHalf, engineHalf],
    [engineFloor, wellZ - BOARD_M],
  );
  if (site.floorZ(...at('engine')) < engineFloor - 0.15)
    b.box(
      'stern-bilge',
      'Stern bilge',
      'bilge',
      at('engine'),
      [-0.3, 0.3],
      [site.floorZ(...at('engine')), engineFloor - BOARD_M],
      {
        bilgePumped: true,
      },
    );
  const inner = engineHalf + BOARD_M;
  const overWell = well + BOARD_M;
  const step: Vec2[] =
    inner > overWell
      ? [
          [overWell, wellZ],
          [inner, wellZ],
        ]
      : [[inner, wellZ]];
  b.section(
    'cockpit-locker',
    'Cockpit locker, port',
    'cockpitLocker',
    [[inner, soleZ], [half, soleZ], [half, deckZ - BOARD_M], [overWell, deckZ - BOARD_M], ...step],
    at('cockpit'),
  );
  const berthZ = Math.max(soleZ + 0.5, 0.12);
  // A berth that all but reaches the lazarette reaches it: what would be left is no room for anything.
  const quarterAft = STRETCH.cockpit[1] * L - BERTH_M;
  const quarter: [number, number] = [
    quarterAft < STRETCH.cockpit[0] * L + LEAST_REST_M ? STRETCH.cockpit[0] * L : quarterAft,
    STRETCH.cockpit[1] * L,
  ];
  const overBerth = Math.max(berthZ, wellZ);
  b.section(
    'quarter-berth',
    'Quarter berth',
    'cabin',
    mirrored(
      inner > overWell && overBerth > berthZ + 0.03
        ? [
            [inner, berthZ],
            [half, berthZ],
            [half, deckZ - 0.05],
            [overWell, deckZ - 0.05],
            [overWell, overBerth],
            [inner, overBerth],
          ]
        : [
            [inner, berthZ],
            [half, berthZ],
            [half, deckZ - 0.05],
            [inner, deckZ - 0.05],
          ],
    ),
    quarter,
    { berth: true },
  );
  b.box('quarter-void', 'Quarter berth void', 'void', quarter, [-half, -inner], [soleZ - 0.1, berthZ - BOARD_M]);

  // Galley and chart table
  const galleySole: Vec2[] = [
    [-sole, soleZ],
    [sole, soleZ],
    [sole, counterZ + BOARD_M],
    [sole + 0.5, counterZ + BOARD_M],
    [sole + 0.5, topZ],
    [-(sole + 0.5), topZ],
    [-(sole + 0.5), seatZ + 0.18],
    [-sole, seatZ + 0.18],
  ];
  b.section('galley', 'Companionway and galley', 'cabin', galleySole, galley);
  const furniture = sole + BOARD_M;
  b.box('galley-locker', 'Galley locker', 'locker', galley, [furniture, half], [soleZ - 0.25, counterZ]);
  b.box(
    'galley-side',
    'Galley side locker',
    'locker',
    galley,
    [sole + 0.52, half],
    [counterZ + BOARD_M, Math.max(counterZ + 0.3, deckZ - 0.04)],
  );
  b.box('nav-locker', 'Chart table locker', 'locker', galley, [-half, -furniture], [soleZ - 0.25, seatZ + 0.16]);
  b.box(
    'nav-side',
    'Chart table side locker',
    'locker',
    galley,
    [-half, -(sole + 0.52)],
    [seatZ + 0.18, Math.max(seatZ + 0.5, deckZ - 0.04)],
  );

  // Saloon
  const middle = (saloon[0] + saloon[1]) / 2;
  const across = innerBreadth(site, middle, seatZ + 0.25);
  const back = Math.min(sole + 0.56, across - 0.2);
  const hasBacks = back >= sole + 0.42;
  const room: Saloon = { x: saloon, sole, half, back: hasBacks ? back : null, soleZ, seatZ, topZ };
  saloonBetween(b, room);
  for (const side of SIDES) {
    const [key, words, sign] = side;
    const lockers = setteeOn(b, room, side, { floorZ: soleZ - 0.25, backTopZ: seatZ + 0.48, lidM: 0.44 });
    for (const id of lockers) b.bulkheads.push([id, key === 'port' ? 'galley-locker' : 'nav-locker']);
    if (!hasBacks) continue;
    b.box(`side-${key}`, `Side locker, ${words}`, 'locker', saloon, onSide(sign, back + BOARD_M, half), [
      seatZ + 0.5,
      Math.max(seatZ + 0.75, deckZ - 0.04),
    ]);
    b.opening({
      id: `side-${key}-door`,
      name: `Side locker doors, ${words}`,
      compartment: `side-${key}`,
      to: 'saloon',
      face: 'inboard',
      mostM: [1.2, 0.3],
      how: 'sliding',
      standing: 'saloon-sole',
    });
  }

  // Bilges under the sole
  const passage = Math.min(0.34, sole);
  const soleEnd = hasHeads ? heads[1] : saloon[1];
  // As wide as the sole over it, so that a board, not a gap, parts it from the lockers beside it.
  const split = hasHeads ? saloon[1] + BOARD_M / 2 : 0.57 * L;
  const foreHalf = hasHeads ? passage : sole;
  b.box(
    'mid-bilge',
    'Bilge, midships',
    'bilge',
    [galley[0], split - BOARD_M / 2],
    [-sole, sole],
    [site.floorZ(galley[0], split), underSole],
    {
      bilgePumped: true,
    },
  );
  b.box(
    'fore-bilge',
    'Bilge, forward',
    'bilge',
    [split + BOARD_M / 2, soleEnd],
    [-foreHalf, foreHalf],
    [site.floorZ(split, soleEnd), underSole],
  );

  // Forward
  const foreSole = Math.max(soleZ, -0.1);
  if (hasHeads) {
    b.box('passage', 'Passage', 'cabin', heads, [-passage, passage], [soleZ, topZ - 0.05]);
    b.box('heads', 'Heads', 'heads', heads, [passage + BOARD_M, half], [soleZ - 0.1, topZ - 0.1]);
    b.box('hanging', 'Hanging locker', 'locker', heads, [-half, -(passage + BOARD_M)], [soleZ - 0.1, deckZ + 0.1]);
  }
  const veeZ = Math.max(foreSole + 0.5, 0.24);
  b.box('forepeak', 'Fore cabin', 'cabin', fore, [-half, half], [veeZ, d.midFreeboardM + 0.25], { berth: true });
  foreBerth(b, { x: fore, half, middle: passage, berthZ: veeZ, sideFloorZ: soleZ - 0.1, floorZ: site.floorZ });
  b.box(
    'chain',
    'Chain locker',
    'chainLocker',
    at('chain'),
    [-0.6, 0.6],
    [0.2 * d.bowFreeboardM, 0.9 * d.bowFreeboardM],
  );

  // What is open, and what stands between
  b.open.push(['galley', 'saloon'], ['quarter-berth', 'galley'], ['engine', 'stern-bilge']);
  if (hasHeads) b.open.push(['saloon', 'passage'], ['passage', 'forepeak']);
  else b.open.push(['saloon', 'forepeak']);
  b.bulkheads.push(
    ['quarter-void', 'nav-locker'],
    ['cockpit-locker', 'galley-locker'],
    ['engine', 'quarter-void'],
    ['engine', 'cockpit-locker'],
  );

  // Where people stand
  b.stand('cockpit', 'Cockpit sole', [(STRETCH.cockpit[0] + 0.1) * L, 0, wellZ], { compartment: 'cockpit' });
  b.stand('deck-aft', 'Side deck, aft', [0.06 * L, -0.7 * innerBreadth(site, 0.06 * L, deckZ), d.sternFreeboardM], {
    posture: 'kneel',
  });
  const headroom = { headroomM: Math.round((topZ - soleZ) * 100) / 100 };
  b.stand('galley-sole', 'Galley sole', [(galley[0] + galley[1]) / 2, 0, soleZ], {
    compartment: 'galley',
    ...headroom,
  });
  b.stand('saloon-sole', 'Saloon sole', [middle, 0, soleZ], { compartment: 'saloon', ...headroom });
  if (hasHeads) b.stand('passage-sole', 'Passage', [(heads[0] + heads[1]) / 2, 0, soleZ], { compartment: 'passage' });

  sailOpenings(b, hasHeads);
  return b.finished(saloon[1] + BOARD_M / 2);
}
