import type { Solid } from '@core/shape/space/solids';
import { type P3, plus } from '../geometry-oracle';
import type { ArmScene, Region } from './arm-scene';

/** The scene with every point and direction moved: the same scene in the mirror, or elsewhere. */
function moved(scene: ArmScene, point: (p: P3) => P3, way: (v: P3) => P3): ArmScene {
  const axes = ([u, v, w]: readonly [P3, P3, P3]): [P3, P3, P3] => [way(u), way(v), way(w)];
  const region = (r: Region): Region => ({ ...r, centre: point(r.centre), axes: axes(r.axes) });
  const solid = (s: Solid): Solid =>
    s.type === 'box'
      ? { ...s, centre: point(s.centre), axes: axes(s.axes) }
      : { ...s, from: point(s.from), to: point(s.to) };
  const { grasp, posture } = scene;
  const { gate, footing } = posture;
  return {
    ...scene,
    solids: scene.solids.map(solid),
    grasp: { ...grasp, point: point(grasp.point), normal: grasp.normal && way(grasp.normal) },
    posture: {
      ...posture,
      gate: gate && { ...gate, at: point(gate.at), out: way(gate.out), across: way(gate.across), up: way(gate.up) },
      shoulders: posture.shoulders.map(region),
      footing: footing && {
        ...footing,
        at: point(footing.at),
        lowM: point([0, 0, footing.lowM])[2],
        highM: point([0, 0, footing.highM])[2],
      },
      attitudes: posture.attitudes.map(({ spine, across }) => ({ spine: way(spine), across: way(across) })),
    },
  };
}

/** Port and starboard changed: left arms are right arms there. */
export const mirroredScene = (scene: ArmScene): ArmScene => {
  const flip = ([x, y, z]: P3): P3 => [x, -y + 0, z];
  return moved(scene, flip, flip);
};

export const shiftedScene = (scene: ArmScene, by: P3): ArmScene =>
  moved(
    scene,
    (p) => plus(p, by),
    (v) => v,
  );
