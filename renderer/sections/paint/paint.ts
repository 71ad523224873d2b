import { paintInnerFrame, paintZones } from '../../board/paint/background';
import type { Ctx } from '../../board/paint/pen';
import type { SectionScene } from '../scene';
import { paintBody, paintBodyGround } from './body';
import { paintAreas, paintPlan, paintProfile, paintStripsGround } from './strips';

/** The sheet of the section board: what stays as it is while a point is held. On a canvas of its own, below the lines. */
export function paintSheet(ctx: Ctx, scene: SectionScene, width: number, height: number): void {
  const { sheet, colours } = scene;
  ctx.fillStyle = colours.film;
  ctx.fillRect(0, 0, width, height);
  ctx.fillStyle = colours.paper;
  ctx.fillRect(sheet.outer.x, sheet.outer.y, sheet.outer.w, sheet.outer.h);
  paintZones(ctx, sheet, colours);
  paintBodyGround(ctx, scene);
  paintStripsGround(ctx, scene);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.line;
  ctx.setLineDash([]);
  ctx.beginPath();
  ctx.moveTo(sheet.inner.x, Math.floor(sheet.profile.y) + 0.5);
  ctx.lineTo(sheet.inner.x + sheet.inner.w, Math.floor(sheet.profile.y) + 0.5);
  ctx.stroke();
  paintInnerFrame(ctx, sheet, colours);
}

/** The lines of the hull, back to front: painted at every step of a drag. */
export function paintLines(ctx: Ctx, scene: SectionScene, width: number, height: number): void {
  ctx.clearRect(0, 0, width, height);
  paintBody(ctx, scene);
  paintAreas(ctx, scene);
  paintProfile(ctx, scene);
  paintPlan(ctx, scene);
}
