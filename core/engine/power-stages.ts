import { type Bundle, bundles, type LaidCable } from '../assess/power/bundles';
import { type Carrying, carrying } from '../assess/power/carrying';
import { type Distribution, distribution } from '../assess/power/distribution';
import { type GasSpace, gasSpaces } from '../assess/power/gas-spaces';
import { type LockerAir, lockerAir } from '../assess/power/locker-air';
import { gasReach } from '../assess/power/sparks';
import { sameValue } from '../boat/schema-walk';
import type { PowerFacts } from '../rules/power-facts';
import { cellsAlong } from './along-stages';
import { circuit } from './circuit-stages';
import { run } from './final-run';
import { compartmentOf, layout } from './shape-stages';
import {
  compartment,
  compartmentData,
  compartmentKind,
  limberHoles,
  line,
  lineIds,
  lineKind,
  needs,
  openings,
  thing,
  thingIds,
} from './source';
import { type ComputedStage, identical, type Read, sameItems } from './store';

const kindOf = (lineId: string, read: Read) => {
  const what = read(line, lineId);
  return what && read(lineKind, what.kind);
};

const compartmentsAlong: ComputedStage<readonly string[]> = {
  id: 'compartmentsAlong',
  compute: (lineId, read) => {
    const { cells } = read(layout);
    const found = read(cellsAlong, lineId).flatMap((index) => cells[index]?.compartment ?? []);
    return [...new Set(found)].sort();
  },
  same: sameItems,
};

const powerTree: ComputedStage<Distribution> = {
  id: 'powerTree',
  compute: (_, read) => distribution(read(circuit), (id) => kindOf(id, read)?.conductors ?? 2),
  same: sameValue,
};

const powerLines: ComputedStage<readonly string[]> = {
  id: 'powerLines',
  compute: (_, read) => read(lineIds).filter((id) => read(line, id)?.medium === 'dcPower'),
  same: sameItems,
};

const allBundles: ComputedStage<ReadonlyMap<string, Bundle>> = {
  id: 'allBundles',
  compute: (_, read) =>
    bundles(
      read(powerLines).flatMap((id): LaidCable[] => {
        const kind = kindOf(id, read);
        const laid = read(run, id);
        const word = read(line, id)?.bundle ?? null;
        if (!kind || (laid.status !== 'routed' && word === null)) return [];
        return [
          {
            id,
            conductors: kind.conductors ?? 1,
            radiusM: kind.outsideM / 2,
            bundle: word,
            prims: laid.status === 'routed' ? laid.prims : [],
          },
        ];
      }),
    ),
  same: (a, b) => sameValue([...a], [...b]),
};

const bundle: ComputedStage<Bundle> = {
  id: 'bundle',
  compute: (lineId, read) =>
    read(allBundles).get(lineId) ?? { conductors: kindOf(lineId, read)?.conductors ?? 1, others: [] },
  same: sameValue,
};

const carried: ComputedStage<Carrying | null> = {
  id: 'carried',
  compute: (lineId, read) => {
    const kind = kindOf(lineId, read);
    if (!kind) return null;
    const engineSpace = read(compartmentsAlong, lineId).some((id) => read(compartmentKind, id) === 'engineSpace');
    return carrying(kind, { engineSpace, bundled: read(bundle, lineId).conductors });
  },
  same: sameValue,
};

const currentIn: ComputedStage<number | null> = {
  id: 'currentIn',
  compute: (lineId, read) => {
    const drawn = (read(powerTree).feeds[lineId]?.consumers ?? []).map((id) => read(thing, id)?.electric?.drawA ?? 0);
    const said = read(line, lineId)?.currentA ?? drawn.reduce((sum, amperes) => sum + amperes, 0);
    // No less than the greatest of them, whatever the cable says.
    const amperes = Math.max(said, ...drawn);
    return amperes > 0 ? amperes : null;
  },
  same: identical,
};

const gas: ComputedStage<Readonly<Record<string, GasSpace>>> = {
  id: 'gasSpaces',
  compute: (_, read) => {
    const compartments = read(compartmentData);
    const petrol = read(thingIds).flatMap((id) => {
      const what = read(thing, id);
      return what?.fuel === 'petrol' ? [{ thing: what, compartment: read(compartmentOf, id) }] : [];
    });
    const isAny =
      petrol.length > 0 || Object.values(compartments).some(({ gasBottles, openToGas }) => gasBottles || openToGas);
    if (!isAny) return {};
    return gasSpaces({
      compartments,
      panels: read(layout).panels,
      openings: read(openings),
      limberHoles: read(limberHoles),
      things: petrol,
    });
  },
  same: sameValue,
};

const gasAbout: ComputedStage<readonly { id: string; radiusM: number; isLocker: boolean }[]> = {
  id: 'gasAbout',
  compute: (_, read) =>
    read(thingIds).flatMap((id) => {
      const what = read(thing, id);
      const radiusM = what ? gasReach(what) : null;
      const isLocker = what?.kind === 'gasLocker';
      return radiusM === null && !isLocker ? [] : [{ id, radiusM: radiusM ?? 0, isLocker }];
    }),
  same: sameValue,
};

const air: ComputedStage<LockerAir | null> = {
  id: 'lockerAir',
  compute: (id, read) => {
    const own = read(compartment, id);
    if (!own) return null;
    const heatW = read(thingIds).reduce((sum, thingId) => {
      const what = read(thing, thingId);
      const warms = what && what.kind !== 'engine' && what.heatW !== undefined && read(compartmentOf, thingId) === id;
      return sum + (warms ? (what.heatW ?? 0) : 0);
    }, 0);
    return lockerAir(own, heatW);
  },
  same: sameValue,
};

const petrol: ComputedStage<boolean> = {
  id: 'petrol',
  compute: (_, read) => read(thingIds).some((id) => read(thing, id)?.fuel === 'petrol'),
  same: identical,
};

export const powerFacts = (read: Read): PowerFacts => ({
  compartment: (id) => read(compartment, id) ?? null,
  compartmentsAlong: (lineId) => read(compartmentsAlong, lineId),
  distribution: () => read(powerTree),
  bundle: (lineId) => read(bundle, lineId),
  carrying: (lineId) => read(carried, lineId),
  currentIn: (lineId) => read(currentIn, lineId),
  gasSpaces: () => read(gas),
  gasThings: () => read(gasAbout),
  lockerAir: (id) => read(air, id),
  needs: () => read(needs),
  isPetrol: () => read(petrol),
});
