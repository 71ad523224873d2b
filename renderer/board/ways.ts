import { along, type Vec3 } from '@core/base/vec';
import { axesIn } from '@core/boat/interior/faces';
import type { MountingSurface } from '@core/boat/interior/ways';
import type { Boat, Opening } from '@core/boat/schema/boat';
import { contextOf, type Scene, SECTION_DEEP, type View } from './scene';

type Shown = Pick<View, 'frame' | 'cut'>;
type StandingPlace = Boat['standingPlaces'][string];

/** Openings, surfaces and standing places of one record kind that a view shows: of the compartment that one works in, and the picked one. */
function shownOf<T extends { readonly at: Vec3 }>(
  scene: Scene,
  view: Shown,
  records: Readonly<Record<string, T>>,
  chosen: string | null,
  belongs: (record: T, context: string) => boolean,
  reachM: (record: T) => number,
): readonly (readonly [string, T])[] {
  const context = placeInHand(scene);
  return Object.entries(records).filter(([id, record]) => {
    const wanted = id === chosen || (context !== null && belongs(record, context));
    return (
      wanted && (!view.cut || view.frame.name !== 'section' || Math.abs(record.at[0] - view.cut.at) < reachM(record))
    );
  });
}

/** The compartment that one works on: picked itself, or by what hangs on it or stands in it. */
function placeInHand(scene: Scene): string | null {
  const { selection, boat } = scene;
  switch (selection?.kind) {
    case 'compartment':
      return selection.id;
    case 'opening':
      return boat.openings[selection.id]?.compartment ?? null;
    case 'surface':
      return boat.mountingSurfaces[selection.id]?.compartment ?? null;
    case 'standingPlace':
      return boat.standingPlaces[selection.id]?.compartment ?? null;
    default:
      return contextOf(scene);
  }
}

const chosenOf = ({ selection }: Scene, kind: 'opening' | 'surface' | 'standingPlace'): string | null =>
  selection?.kind === kind ? selection.id : null;

export const waysIn = (scene: Scene, view: Shown): readonly (readonly [string, Opening])[] =>
  shownOf(
    scene,
    view,
    scene.boat.openings,
    chosenOf(scene, 'opening'),
    (opening, context) => opening.compartment === context || opening.to === context,
    (opening) => Math.max(opening.widthM, SECTION_DEEP),
  );

export const surfacesIn = (scene: Scene, view: Shown): readonly (readonly [string, MountingSurface])[] =>
  shownOf(
    scene,
    view,
    scene.boat.mountingSurfaces,
    chosenOf(scene, 'surface'),
    (surface, context) => surface.compartment === context,
    (surface) => Math.max(surface.widthM, SECTION_DEEP),
  );

/** Standing places of the compartment, and those that its openings are worked from. */
export function standingIn(scene: Scene, view: Shown): readonly (readonly [string, StandingPlace])[] {
  const used = new Set(waysIn(scene, { ...view, cut: null }).flatMap(([, opening]) => opening.standing ?? []));
  return Object.entries(scene.boat.standingPlaces).filter(([id, place]) => {
    const wanted =
      id === chosenOf(scene, 'standingPlace') ||
      used.has(id) ||
      (place.compartment !== undefined && place.compartment === placeInHand(scene));
    return (
      wanted && (!view.cut || view.frame.name !== 'section' || Math.abs(place.at[0] - view.cut.at) < SECTION_DEEP * 2)
    );
  });
}

/** Corners of a mounting surface in the boat: its width level, its height as upright as its plane goes. */
export function surfaceRing({
  at,
  normal,
  widthM,
  heightM,
}: Pick<MountingSurface, 'at' | 'normal' | 'widthM' | 'heightM'>): readonly Vec3[] {
  const [u, v] = axesIn(normal);
  return (
    [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ] as const
  ).map(([i, j]) => along(along(at, u, (i * widthM) / 2), v, (j * heightM) / 2));
}
