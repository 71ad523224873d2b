import type { Vec2 } from '@core/base/vec';
import { waterHeight } from '@core/output/views/hull-lines';
import { bodyPlanExtent } from '@core/output/views/lines-plan';
import { type Ctx, FONT, inField, letter, trace } from '../../board/paint/pen';
import { type Transform, toScreen } from '../../board/sheet';
import { figure, lengthUnit, massText, wholeLength } from '../../panels/format';
import type { SectionScene } from '../scene';
import { stripTransform } from '../sheet';

/** Profile with buttocks, half plan with waterlines, curve of areas: they follow while a point is held. */

export function profileTransform({
  surface,
  body,
  sheet,
}: Pick<SectionScene, 'surface' | 'body' | 'sheet'>): Transform {
  const { lowM, highM } = bodyPlanExtent(body);
  return stripTransform(sheet.profile, [surface.aftM, lowM], [surface.forwardM, highM]);
}

export function planTransform({ surface, body, sheet }: Pick<SectionScene, 'surface' | 'body' | 'sheet'>): Transform {
  const { halfBreadthM } = bodyPlanExtent(body);
  const reach = Math.abs(surface.offsetM) + halfBreadthM;
  return stripTransform(sheet.plan, [surface.aftM, surface.offsetM === 0 ? 0 : -reach], [surface.forwardM, reach]);
}

/** Captions of the strips: they do not move with a point. */
export function paintStripsGround(ctx: Ctx, scene: SectionScene): void {
  const { sheet, surface, lines, units } = scene;
  const every = (what: string, spacingM: number): string =>
    lines.shown ? `, ${what} every ${wholeLength(spacingM, units)} ${lengthUnit(units)}` : '';
  const plan = surface.offsetM === 0 ? 'Half plan' : 'Plan, two hulls';
  caption(ctx, scene, `Profile${every('buttocks', lines.buttocksM)}`, [sheet.profile.x + 14, sheet.profile.y + 12]);
  caption(ctx, scene, `${plan}${every('waterlines', lines.waterlinesM)}`, [sheet.plan.x + 14, sheet.plan.y + 12]);
  caption(ctx, scene, 'Curve of areas, m\u00b2', [sheet.areas.x + 12, sheet.areas.y + 12]);
}

export function paintProfile(ctx: Ctx, scene: SectionScene): void {
  const { sheet, colours, profile, buttocks, level, surface } = scene;
  const t = profileTransform(scene);
  inField(ctx, sheet.profile, () => {
    paintStationMarks(ctx, scene, t, sheet.profile.y + 24, sheet.profile.y + sheet.profile.h - 16);
    stroke(ctx, colours.ink3, 0.8, () => {
      for (const { points } of buttocks) trace(ctx, t, points, false);
    });
    stroke(ctx, colours.waterl, 1.2, () => {
      const ends: Vec2[] = [surface.aftM, surface.forwardM].map((x) => [x, waterHeight(level, x, 0)]);
      trace(ctx, t, ends, false);
    });
    stroke(ctx, colours.draw, 1.5, () => trace(ctx, t, [...profile.sheer, ...[...profile.keel].reverse()], true));
  });
}

export function paintPlan(ctx: Ctx, scene: SectionScene): void {
  const { sheet, colours, sheer, waterlines, surface } = scene;
  const t = planTransform(scene);
  const { offsetM } = surface;
  // A hull off the centreline is there twice, mirrored, and each is whole.
  const copies: readonly (readonly [number, number])[] =
    offsetM === 0
      ? [[0, 1]]
      : [
          [offsetM, 1],
          [offsetM, -1],
          [-offsetM, 1],
          [-offsetM, -1],
        ];
  const at = (points: readonly Vec2[], [centre, side]: readonly [number, number]): Vec2[] =>
    points.map(([x, b]) => [x, centre + side * b]);
  inField(ctx, sheet.plan, () => {
    paintStationMarks(ctx, scene, t, sheet.plan.y + 24, sheet.plan.y + sheet.plan.h - 16);
    for (const copy of copies) {
      stroke(ctx, colours.ink3, 0.8, () => {
        for (const { points, zM } of waterlines) if (zM !== 0) trace(ctx, t, at(points, copy), false);
      });
      stroke(ctx, colours.waterl, 1.2, () => {
        for (const { points, zM } of waterlines) if (zM === 0) trace(ctx, t, at(points, copy), false);
      });
      stroke(ctx, colours.draw, 1.5, () => trace(ctx, t, at(sheer, copy), false));
    }
    stroke(ctx, colours.draw, 1, () => {
      const ends: Vec2[] = [
        [surface.aftM, 0],
        [surface.forwardM, 0],
      ];
      trace(ctx, t, ends, false);
    });
  });
}

/** Stations as fine upright lines, numbered; the active one stands out. */
function paintStationMarks(ctx: Ctx, scene: SectionScene, t: Transform, top: number, bottom: number): void {
  const { body, active, colours } = scene;
  stroke(ctx, colours.line, 1, () => {
    for (const { xM, id } of body) {
      if (id === active.id) continue;
      const x = Math.floor(toScreen(t, [xM, 0])[0]) + 0.5;
      ctx.moveTo(x, top);
      ctx.lineTo(x, bottom - 8);
    }
  });
  stroke(ctx, colours.accl, 1.8, () => {
    const x = toScreen(t, [active.line.xM, 0])[0];
    ctx.moveTo(x, top);
    ctx.lineTo(x, bottom - 8);
  });
  let free = Number.NEGATIVE_INFINITY;
  const own = toScreen(t, [active.line.xM, 0])[0];
  for (const { number, xM, id } of body) {
    const x = toScreen(t, [xM, 0])[0];
    const isActive = id === active.id;
    if (!isActive && (x < free || Math.abs(x - own) < 14)) continue;
    letter(ctx, String(number), [x, bottom], {
      font: isActive ? FONT.strong : FONT.drawing,
      colour: isActive ? colours.accent : colours.ink3,
    });
    free = x + 14;
  }
}

export function paintAreas(ctx: Ctx, scene: SectionScene): void {
  const { sheet, colours, areas, surface, active, afloat, densityKgM3, restKg, isHeld } = scene;
  const field = sheet.areas;
  const greatest = Math.max(1e-6, ...areas.map(([, area]) => area));
  const left = field.x + 12;
  const wide = field.w - 30;
  const bottom = field.y + field.h - 22;
  const tall = field.h - 62;
  const at = ([x, area]: Vec2): Vec2 => [
    left + (wide * (x - surface.aftM)) / (surface.forwardM - surface.aftM),
    bottom - (tall * area) / greatest,
  ];
  const curve = areas.map(at);
  ctx.beginPath();
  for (const [i, [x, y]] of curve.entries()) {
    if (i === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  }
  ctx.lineTo(left + wide, bottom);
  ctx.lineTo(left, bottom);
  ctx.closePath();
  ctx.fillStyle = colours.shade;
  ctx.fill();
  stroke(ctx, colours.draw, 1.4, () => {
    for (const [i, [x, y]] of curve.entries()) {
      if (i === 0) ctx.moveTo(x, y);
      else ctx.lineTo(x, y);
    }
    ctx.moveTo(left, bottom);
    ctx.lineTo(left + wide, bottom);
  });
  const kg = afloat.volumeM3 * densityKgM3;
  const change = kg - restKg;
  const moved = isHeld ? `, ${change >= 0 ? '+' : ''}${figure(change)} kg` : '';
  letter(ctx, kg > 0 ? `${massText(kg)}${moved}` : 'dry', [field.x + field.w - 18, field.y + 12], {
    font: FONT.strong,
    colour: isHeld ? colours.accent : colours.ink,
    align: 'right',
  });
  if (!(afloat.volumeM3 > 0)) {
    letter(ctx, 'No section meets the water: nothing floats.', [left, bottom - 14], {
      font: FONT.drawing,
      colour: colours.bad,
      align: 'left',
    });
    return;
  }
  const lcb = at([afloat.buoyancy[0], 0])[0];
  stroke(ctx, colours.ink3, 0.8, () => {
    ctx.setLineDash([14, 3, 2, 3]);
    ctx.moveTo(lcb, bottom);
    ctx.lineTo(lcb, bottom - tall);
  });
  letter(ctx, `LCB ${figure(afloat.buoyancy[0], 2)} m`, [lcb - 5, bottom - 12], {
    font: FONT.drawing,
    colour: colours.ink2,
    align: 'right',
    halo: colours.shade,
  });
  const own = areaAt(areas, active.line.xM);
  const mark = at([active.line.xM, own]);
  ctx.beginPath();
  ctx.arc(mark[0], mark[1], 4, 0, 2 * Math.PI);
  ctx.fillStyle = colours.paper;
  ctx.fill();
  stroke(ctx, colours.accl, 1.5, () => ctx.arc(mark[0], mark[1], 4, 0, 2 * Math.PI));
  // Off the curve: above it, on the side to which it falls.
  const falls = mark[0] > lcb;
  letter(ctx, `${figure(own, 2)} m\u00b2`, [mark[0] + (falls ? 9 : -9), mark[1] - 6], {
    font: FONT.strong,
    colour: colours.accent,
    align: falls ? 'left' : 'right',
    halo: colours.shade,
  });
  const ends = { font: FONT.drawing, colour: colours.ink3 };
  letter(ctx, 'aft', [left, bottom + 11], { ...ends, align: 'left' });
  letter(ctx, 'forward', [left + wide, bottom + 11], { ...ends, align: 'right' });
}

function areaAt(areas: readonly Vec2[], xM: number): number {
  const next = areas.findIndex(([x]) => x >= xM);
  const to = areas[Math.max(0, next)];
  const from = areas[Math.max(0, next - 1)];
  if (!to || !from || to[0] === from[0]) return to?.[1] ?? 0;
  return from[1] + ((to[1] - from[1]) * (xM - from[0])) / (to[0] - from[0]);
}

function caption(ctx: Ctx, { colours }: SectionScene, words: string, at: Vec2): void {
  letter(ctx, words, at, { font: FONT.caption, colour: colours.ink, align: 'left' });
}

function stroke(ctx: Ctx, colour: string, width: number, path: () => void): void {
  ctx.setLineDash([]);
  ctx.strokeStyle = colour;
  ctx.lineWidth = width;
  ctx.beginPath();
  path();
  ctx.stroke();
  ctx.setLineDash([]);
}
