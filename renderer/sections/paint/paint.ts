import { paintInnerFrame, paintZones } from '../../board/paint/background';
import type { Ctx } from '../../board/paint/pen';
import type { SectionScene } from '../scene';
import { paintBody } from './body';
import { paintAreas, paintPlan, paintProfile } from './strips';

/** The whole section board, back to front. */
export function paintSections(ctx: Ctx, scene: SectionScene, width: number, height: number): void {
  const { sheet, colours } = scene;
  ctx.fillStyle = colours.film;
  ctx.fillRect(0, 0, width, height);
  ctx.fillStyle = colours.paper;
  ctx.fillRect(sheet.outer.x, sheet.outer.y, sheet.outer.w, sheet.outer.h);
  paintZones(ctx, sheet, colours);
  paintBody(ctx, scene);
  paintAreas(ctx, scene);
  paintProfile(ctx, scene);
  paintPlan(ctx, scene);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.line;
  ctx.beginPath();
  ctx.moveTo(sheet.inner.x, Math.floor(sheet.profile.y) + 0.5);
  ctx.lineTo(sheet.inner.x + sheet.inner.w, Math.floor(sheet.profile.y) + 0.5);
  ctx.stroke();
  paintInnerFrame(ctx, sheet, colours);
}
