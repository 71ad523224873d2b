import type { Dice } from './dice';
import { micro, micro3 } from './dice';
import type { P2 } from './geometry-oracle';
import { panelsFrom } from './interior-oracle';
import { BOTH_SIDES, flaredCentre, flaredSide, steppedCentre, steppedSide } from './room-outlines';
import { type Draft, type HullForm, prismsOf, type Room, somewhere, yawed } from './scene-interior';

/** Share of the cells of a scene that are sloped or concave, and of its panels that must not be drilled. */
export const ODD_CELLS = 0.3;
export const NO_DRILL = 0.25;

/** What a bay looks like, and how many of its four cells are sloped or concave in it. */
const STYLES = { square: 0, funnel: 1, sole: 2, flare: 3, step: 3 } as const;
type Style = keyof typeof STYLES;

/** A whole number near `amount` whose mean is `amount`. */
const dithered = (d: Dice, amount: number): number => Math.floor(amount + d.next());

/** Bays of four cells along the boat: centre, port, starboard and bilge; three cells in ten are sloped or concave. */
export function suiteRooms(d: Dice): { rooms: Record<string, Room>; odd: ReadonlySet<string> } {
  const rooms: Record<string, Room> = {};
  const odd = new Set<string>();
  const bays = 5 + d.whole(2);
  const styles = stylesFor(d, bays);
  let x = 1.1;
  styles.forEach((style, i) => {
    const x1 = x + d.from(1.2, 1.9);
    const bay = bayOf(d, style, x, x1);
    for (const [side, room] of Object.entries(bay.rooms)) rooms[`${side}${i}`] = room;
    for (const side of bay.odd) odd.add(`${side}${i}`);
    x = x1 + d.pick([0, 0.012, 0.018, 0.03, 0.045]);
  });
  return { rooms: d.next() < 0.3 ? yawed(rooms, d.from(-5, 5)) : rooms, odd };
}

function stylesFor(d: Dice, bays: number): Style[] {
  const styles: Style[] = Array.from({ length: bays }, () => 'square');
  const order = styles.map((_, i) => i).sort(() => d.next() - 0.5);
  let left = dithered(d, ODD_CELLS * 4 * bays);
  for (const i of order) {
    const fitting = (['flare', 'step', 'sole', 'funnel'] as const).filter((style) => STYLES[style] <= left);
    if (fitting.length === 0) break;
    styles[i] = d.pick(fitting);
    left -= STYLES[styles[i] as Style];
  }
  return styles;
}

function bayOf(d: Dice, style: Style, x0: number, x1: number): { rooms: Record<string, Room>; odd: string[] } {
  const g = d.pick([0, 0.006, 0.012, 0.02, 0.03, 0.045]);
  const sole = d.from(-0.02, 0.08);
  const top = d.from(0.85, 1.0);
  const ya = d.from(0.38, 0.6);
  const yb = ya + (d.next() < 0.4 ? -1 : 1) * d.from(0.06, 0.18);
  const rooms: Record<string, Room> = {};
  const put = (side: string, view: Room['view'], outline: P2[], [from, to]: P2): void => {
    rooms[side] = {
      name: side,
      view,
      outline: outline.map(([a, b]) => [micro(a), micro(b)]),
      rangeM: [micro(from), micro(to)],
    };
  };
  /** A box, drawn in whichever view. */
  const box = (side: string, low: readonly number[], high: readonly number[]): void => {
    const view = d.pick(['plan', 'profile', 'section'] as const);
    const [a, b, c] = { plan: [0, 1, 2], profile: [0, 2, 1], section: [1, 2, 0] }[view] as [number, number, number];
    const at = (k: number, far: boolean): number => (far ? high : low)[k] as number;
    put(
      side,
      view,
      [
        [at(a, false), at(b, false)],
        [at(a, true), at(b, false)],
        [at(a, true), at(b, true)],
        [at(a, false), at(b, true)],
      ],
      [at(c, false), at(c, true)],
    );
  };
  const xm = x0 + (x1 - x0) * d.from(0.4, 0.6);
  if (style === 'flare') {
    put('c', 'section', flaredCentre(ya, yb, sole, top), [x0, x1]);
    for (const [side, s] of BOTH_SIDES)
      put(side, 'section', flaredSide(s, ya, yb, g, sole, top, d.from(0, 0.15)), [x0, x1]);
    box('b', [x0, -0.35, -0.9], [x1, 0.35, sole - g]);
    return { rooms, odd: ['c', 'p', 's'] };
  }
  if (style === 'step') {
    put('c', 'plan', steppedCentre([x0, xm, x1], ya, yb), [sole, top]);
    for (const [side, s] of BOTH_SIDES) put(side, 'plan', steppedSide(s, [x0, xm, x1], ya, yb, g), [sole, top]);
    box('b', [x0, -0.35, -0.9], [x1, 0.35, sole - g]);
    return { rooms, odd: ['c', 'p', 's'] };
  }
  for (const [side, s] of BOTH_SIDES) box(side, [x0, s > 0 ? ya + g : -2, sole], [x1, s > 0 ? 2 : -ya - g, top]);
  if (style === 'sole') {
    const rise = sole + d.from(0.08, 0.18);
    const centre: P2[] = [
      [x0, sole],
      [xm, sole],
      [xm, rise],
      [x1, rise],
      [x1, top],
      [x0, top],
    ];
    put('c', 'profile', centre, [-ya, ya]);
    const bilge: P2[] = [
      [x0, -0.75],
      [x1, -0.75],
      [x1, rise - g],
      [xm + g, rise - g],
      [xm + g, sole - g],
      [x0, sole - g],
    ];
    put('b', 'profile', bilge, [-ya, ya]);
    return { rooms, odd: ['c', 'b'] };
  }
  box('c', [x0, -ya, sole], [x1, ya, top]);
  if (style === 'funnel') {
    const bilge: P2[] = [
      [-0.6, sole - g],
      [-0.35, -0.5],
      [-0.3, -0.9],
      [0.3, -0.9],
      [0.35, -0.5],
      [0.6, sole - g],
    ];
    put('b', 'section', bilge, [x0, x1]);
    return { rooms, odd: ['b'] };
  }
  box('b', [x0, -0.35, -0.9], [x1, 0.35, sole - g]);
  return { rooms, odd: [] };
}

/** A record for every panel that the rooms make within the hull: a quarter must not be drilled, a sixth is open. */
export function suitePanels(d: Dice, rooms: Record<string, Room>, form: HullForm): Draft<'panels'> {
  const bare = { compartments: rooms, panels: {} } as unknown as Parameters<typeof panelsFrom>[0];
  const found = panelsFrom(bare, prismsOf(rooms), {}).flatMap((panel) => {
    const inside = somewhere(d, panel, 0.05, form.room);
    return inside ? [{ panel, inside }] : [];
  });
  const order = found.map((_, k) => k).sort(() => d.next() - 0.5);
  const closed = dithered(d, NO_DRILL * found.length);
  const open = dithered(d, found.length / 6);
  const panels: Draft<'panels'> = {};
  order.forEach((k, place) => {
    const { panel, inside } = found[k] as (typeof found)[number];
    const rule = place < closed ? 'noDrill' : place < closed + open ? 'open' : 'drill';
    panels[`q${k}`] = {
      between: [panel.between[0], panel.between[1]],
      near: micro3(inside),
      rule,
      material: d.pick(['ply', 'solidWood', 'grpSolid', 'grpCored'] as const),
      newHoleCostM: micro(d.from(0.1, 0.6)),
      ...(d.next() < 0.3 ? { thicknessM: micro(panel.gapM + d.pick([0.006, 0.012, 0.018])) } : {}),
      holes: rule === 'open' || d.next() < 0.5 ? {} : { loom: holeDraft(d, inside) },
    };
  });
  return panels;
}

/** A hole that is there already; in two of five something runs through it. */
function holeDraft(d: Dice, at: readonly [number, number, number]): HoleDraft {
  const diameterM = d.pick([0.025, 0.03, 0.04, 0.05, 0.06]);
  const carries: HoleDraft['carries'] =
    d.next() < 0.4 ? { cable: { name: 'cable', diameterM: micro(d.from(0.15, 0.4) * diameterM) } } : {};
  return { at: micro3(at), diameterM, carries };
}
type HoleDraft = NonNullable<Draft<'panels'>[string]['holes']>[string];
