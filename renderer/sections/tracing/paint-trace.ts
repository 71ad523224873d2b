import type { PictureMark, PicturePlane } from '@core/base/formulas/picture-plane';
import type { Vec2 } from '@core/base/vec';
import type { Tokens } from '../../app/tokens';
import { type Ctx, FONT, letter } from '../../board/paint/pen';

/** How the picture lies on the board: board = picture * scale + (x, y). */
export interface PictureCamera {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

export interface TraceScene {
  readonly bitmap: ImageBitmap;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly camera: PictureCamera;
  readonly opacity: number;
  readonly colours: Tokens;
  readonly marks: readonly PictureMark[];
  readonly plane: PicturePlane | null;
  readonly points: readonly Vec2[];
  /** Lines of the hull as it is, places of the view's plane. */
  readonly hull: readonly (readonly Vec2[])[];
  readonly cross: Vec2;
  readonly focused: boolean;
}

export const toBoard = ({ scale, x, y }: PictureCamera, [px, py]: Vec2): Vec2 => [px * scale + x, py * scale + y];
export const toPicture = ({ scale, x, y }: PictureCamera, [bx, by]: Vec2): Vec2 => [(bx - x) / scale, (by - y) / scale];

export const fittedPicture = (width: number, height: number, widthPx: number, heightPx: number): PictureCamera => {
  const scale = Math.min((width - 24) / widthPx, (height - 24) / heightPx);
  return { scale, x: (width - widthPx * scale) / 2, y: (height - heightPx * scale) / 2 };
};

const GRID_M = 0.5;
const GRID_REACH = 40;

export function paintTrace(ctx: Ctx, scene: TraceScene, width: number, height: number): void {
  const { bitmap, camera, opacity, colours, widthPx, heightPx } = scene;
  ctx.fillStyle = colours.paper;
  ctx.fillRect(0, 0, width, height);
  ctx.globalAlpha = opacity / 100;
  ctx.drawImage(bitmap, camera.x, camera.y, widthPx * camera.scale, heightPx * camera.scale);
  ctx.globalAlpha = 1;
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.line;
  ctx.strokeRect(camera.x, camera.y, widthPx * camera.scale, heightPx * camera.scale);
  if (scene.plane) {
    paintGrid(ctx, scene, scene.plane);
    paintHull(ctx, scene, scene.plane);
  }
  paintPoints(ctx, scene);
  paintMarks(ctx, scene);
  if (scene.focused) paintCross(ctx, scene);
}

/** Half metres of the boat laid over the picture: where they run true, the picture is straight. */
function paintGrid(ctx: Ctx, { marks, camera, colours }: TraceScene, plane: PicturePlane): void {
  const us = marks.map(({ place }) => place[0]);
  const vs = marks.map(({ place }) => place[1]);
  const low: Vec2 = [Math.floor(Math.min(...us) / GRID_M) - 2, Math.floor(Math.min(...vs) / GRID_M) - 3];
  const high: Vec2 = [Math.ceil(Math.max(...us) / GRID_M) + 2, Math.ceil(Math.max(...vs) / GRID_M) + 3];
  ctx.strokeStyle = colours.waterl;
  ctx.lineWidth = 0.7;
  ctx.setLineDash([1, 3]);
  ctx.beginPath();
  const line = (from: Vec2, to: Vec2) =>
    path(ctx, camera, plane, [from, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], to]);
  if (high[0] - low[0] < GRID_REACH)
    for (let i = low[0]; i <= high[0]; i += 1) line([i * GRID_M, low[1] * GRID_M], [i * GRID_M, high[1] * GRID_M]);
  if (high[1] - low[1] < GRID_REACH)
    for (let i = low[1]; i <= high[1]; i += 1) line([low[0] * GRID_M, i * GRID_M], [high[0] * GRID_M, i * GRID_M]);
  ctx.stroke();
  ctx.setLineDash([]);
}

function paintHull(ctx: Ctx, { hull, camera, colours }: TraceScene, plane: PicturePlane): void {
  ctx.strokeStyle = colours.paper;
  ctx.lineWidth = 4;
  ctx.beginPath();
  for (const points of hull) path(ctx, camera, plane, points);
  ctx.stroke();
  ctx.strokeStyle = colours.draw;
  ctx.lineWidth = 1.4;
  ctx.beginPath();
  for (const points of hull) path(ctx, camera, plane, points);
  ctx.stroke();
}

function path(ctx: Ctx, camera: PictureCamera, plane: PicturePlane, points: readonly Vec2[]): void {
  let open = false;
  for (const point of points) {
    const pixel = plane.toPixel(point);
    if (!pixel) {
      open = false;
      continue;
    }
    const [x, y] = toBoard(camera, pixel);
    if (open) ctx.lineTo(x, y);
    else ctx.moveTo(x, y);
    open = true;
  }
}

function paintPoints(ctx: Ctx, { points, camera, colours }: TraceScene): void {
  ctx.strokeStyle = colours.accl;
  ctx.lineWidth = 2;
  ctx.beginPath();
  points.forEach((point, i) => {
    const [x, y] = toBoard(camera, point);
    if (i === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  });
  ctx.stroke();
  for (const point of points) {
    const [x, y] = toBoard(camera, point);
    ctx.beginPath();
    ctx.arc(x, y, 3.4, 0, 2 * Math.PI);
    ctx.fillStyle = colours.paper;
    ctx.fill();
    ctx.stroke();
  }
}

function paintMarks(ctx: Ctx, { marks, camera, colours }: TraceScene): void {
  marks.forEach(({ pixel }, i) => {
    const [x, y] = toBoard(camera, pixel);
    ctx.strokeStyle = colours.paper;
    ctx.lineWidth = 4;
    plus(ctx, x, y);
    ctx.strokeStyle = colours.accl;
    ctx.lineWidth = 1.6;
    plus(ctx, x, y);
    ctx.beginPath();
    ctx.arc(x + 15, y - 13, 9, 0, 2 * Math.PI);
    ctx.fillStyle = colours.wash;
    ctx.fill();
    ctx.lineWidth = 1.2;
    ctx.stroke();
    letter(ctx, String(i + 1), [x + 15, y - 13], { font: FONT.balloon, colour: colours.ink });
  });
}

function plus(ctx: Ctx, x: number, y: number): void {
  ctx.beginPath();
  ctx.moveTo(x - 10, y);
  ctx.lineTo(x + 10, y);
  ctx.moveTo(x, y - 10);
  ctx.lineTo(x, y + 10);
  ctx.stroke();
}

function paintCross(ctx: Ctx, { cross, camera, colours }: TraceScene): void {
  const [x, y] = toBoard(camera, cross);
  ctx.strokeStyle = colours.accent;
  ctx.lineWidth = 1;
  ctx.beginPath();
  for (const [dx, dy] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const) {
    ctx.moveTo(x + dx * 5, y + dy * 5);
    ctx.lineTo(x + dx * 22, y + dy * 22);
  }
  ctx.stroke();
}
