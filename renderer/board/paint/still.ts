import type { ViewName } from '@core/output/views/drawing';
import type { Annotations } from '../annotate';
import { type Scene, type View, viewsOf } from '../scene';
import type { Camera, Rect, Sheet } from '../sheet';
import { paintCaptions, paintDividers, paintEdgeMarks, paintFrames, paintGround, paintPaper } from './background';
import { paintField } from './interior';
import { type Ctx, inField } from './pen';

/** Sheet and boat at rest, without what a drag holds. */
export function paintStill(ctx: Ctx, scene: Scene, notes: Annotations): void {
  paintPaper(ctx, scene);
  for (const view of viewsOf(scene)) inField(ctx, view.field, () => paintContent(ctx, scene, view, notes));
  paintSheet(ctx, scene);
}

function paintContent(ctx: Ctx, scene: Scene, view: View, notes: Annotations): void {
  paintGround(ctx, scene, view);
  paintField(ctx, scene, view, notes);
}

/** What stays where it is while the boat moves under it. */
function paintSheet(ctx: Ctx, scene: Scene): void {
  for (const view of viewsOf(scene)) inField(ctx, view.field, () => paintEdgeMarks(ctx, scene, view));
  paintFrames(ctx, scene);
  paintDividers(ctx, scene);
  paintCaptions(ctx, scene);
}

/** How far a picture reaches beyond its field, pixels: so far a pan goes before a new one is taken. */
const MARGIN_PX = 160;
/** A picture is shown at most so much larger than it was taken. */
const LARGEST = 1.6;

interface Picture {
  readonly canvas: HTMLCanvasElement;
  readonly view: View;
  readonly area: Rect;
}

/**
 * While the sheet moves its fields are shown from pictures, shifted and scaled; a new set is taken where they end or coarsen.
 * At rest everything is drawn anew, sharp.
 */
export class FieldPictures {
  private of: readonly unknown[] = [];
  private camera: Camera | null = null;
  private pictures = new Map<ViewName, Picture>();
  /** Sets taken so far. */
  taken = 0;

  paintMoving(ctx: Ctx, scene: Scene, notes: Annotations, ratio: number): void {
    const views = viewsOf(scene);
    const { camera: _moves, ...rest } = scene;
    const of = [...Object.values(rest), notes, ratio];
    const fresh = of.length === this.of.length && of.every((part, i) => part === this.of[i]);
    if (!fresh || !views.every((view) => this.reaches(view))) {
      this.of = of;
      this.take(scene, notes, ratio);
    }
    paintPaper(ctx, scene);
    for (const view of views) {
      const picture = this.pictures.get(view.name);
      if (!picture) continue;
      const { x, y, w, h } = shownAt(picture, view);
      inField(ctx, view.field, () => ctx.drawImage(picture.canvas, x, y, w, h));
    }
    paintSheet(ctx, scene);
  }

  private reaches(view: View): boolean {
    const picture = this.pictures.get(view.name);
    if (!picture || !this.camera || view.t.scale > this.camera.scale * LARGEST) return false;
    return covers(shownAt(picture, view), view.field);
  }

  private take(scene: Scene, notes: Annotations, ratio: number): void {
    this.camera = scene.camera;
    this.taken += 1;
    const grown = { ...scene, sheet: grownBy(scene.sheet, MARGIN_PX) };
    for (const view of viewsOf(grown)) {
      const known = this.pictures.get(view.name)?.canvas;
      const canvas = known ?? document.createElement('canvas');
      // On whole device pixels, else every line would be smeared.
      const left = Math.floor(view.field.x * ratio);
      const top = Math.floor(view.field.y * ratio);
      canvas.width = Math.ceil(view.field.w * ratio) + 1;
      canvas.height = Math.ceil(view.field.h * ratio) + 1;
      const ctx = canvas.getContext('2d');
      if (!ctx) continue;
      ctx.setTransform(1, 0, 0, 1, 0, 0);
      ctx.fillStyle = scene.colours.paper;
      ctx.fillRect(0, 0, canvas.width, canvas.height);
      ctx.setTransform(ratio, 0, 0, ratio, -left, -top);
      inField(ctx, view.field, () => paintContent(ctx, grown, view, notes));
      const area = { x: left / ratio, y: top / ratio, w: canvas.width / ratio, h: canvas.height / ratio };
      this.pictures.set(view.name, { canvas, view, area });
    }
  }
}

/** Fields grown about their middles, so that the same camera puts the boat in the same place. */
export function grownBy(sheet: Sheet, margin: number): Sheet {
  const grown = (field: Rect): Rect => ({
    x: field.x - margin,
    y: field.y - margin,
    w: field.w + 2 * margin,
    h: field.h + 2 * margin,
  });
  const { profile, section, plan, detail } = sheet.fields;
  const fields = { profile: grown(profile), section: grown(section), plan: grown(plan), detail };
  return { ...sheet, fields };
}

/** Where a picture lies when its view is looked at otherwise. */
export function shownAt({ view: taken, area }: Pick<Picture, 'view' | 'area'>, now: Pick<View, 't'>): Rect {
  const k = now.t.scale / taken.t.scale;
  return {
    x: now.t.x + (area.x - taken.t.x) * k,
    y: now.t.y + (area.y - taken.t.y) * k,
    w: area.w * k,
    h: area.h * k,
  };
}

export const covers = (outer: Rect, inner: Rect): boolean =>
  outer.x <= inner.x &&
  outer.y <= inner.y &&
  outer.x + outer.w >= inner.x + inner.w &&
  outer.y + outer.h >= inner.y + inner.h;
