import type { Facts } from '../rules/facts';
import { crossingsOf, runsInBox, servicesAlong, zonesAlong } from './along-stages';
import { carryFacts } from './carry-stages';
import { circuit, isSuction } from './circuit-stages';
import { run } from './final-run';
import { floodFacts } from './flood-stages';
import { gradesOver } from './grade-stages';
import { powerFacts } from './power-stages';
import { wish } from './run-stages';
import { serviceFacts } from './service/service-facts';
import { compartmentOf, hull, layout } from './shape-stages';
import { runSlack } from './slack-stages';
import { boxKey, fixedSolidsInBox, solidsInBox, solidsOf, surfaceOf } from './solid-stages';
import * as source from './source';
import type { Read } from './store';
import { attitude, greatestHeelWaters, runningWaters } from './water-stages';
import { lineWishes } from './zone-stages';

/** What a rule may know, over reads that are recorded. */
export const factsOver = (read: Read): Facts => ({
  profile: () => read(source.practice),
  thingIds: () => read(source.thingIds),
  thing: (id) => read(source.thing, id) ?? null,
  isPart: (id) => read(source.isPart, id),
  pose: (id) => read(source.pose, id),
  compartmentOf: (id) => read(compartmentOf, id),
  solidsOf: (id) => read(solidsOf, id),
  solidsIn: (low, high) => read(solidsInBox, boxKey(low, high)),
  fixedSolidsIn: (low, high) => read(fixedSolidsInBox, boxKey(low, high)),
  compartmentName: (id) => read(source.compartmentName, id) ?? id,
  compartmentKind: (id) => read(source.compartmentKind, id) ?? null,
  openings: () => read(source.openings),
  wayIn: (partId) => read(source.placeChoices, partId)?.wayIn ?? null,
  mountedOn: (partId) => read(source.placeChoices, partId)?.mountedOn ?? null,
  mountingSurfaces: () => read(source.mountingSurfaces),
  standingPlaces: () => read(source.standingPlaces),
  berths: () => read(source.berths),
  panelRecords: () => read(source.panelData),
  newHoles: () => read(source.newHoles),
  plannedYear: () => read(source.plannedYear),
  isDemanded: (kind) => Object.values(read(source.demands) ?? {}).some((demand) => demand.kind === kind),
  layout: () => read(layout),
  hull: () => read(hull),
  attitude: () => read(attitude),
  lineIds: () => read(source.lineIds),
  line: (id) => read(source.line, id) ?? null,
  lineKind: (id) => read(source.lineKind, id) ?? null,
  run: (lineId) => (read(source.line, lineId) ? read(run, lineId) : null),
  runSlack: (lineId) => (read(source.line, lineId) ? read(runSlack, lineId) : null),
  isSuction: (lineId) => read(isSuction, lineId),
  clipPoints: (lineId) => Object.values(read(source.clipPoints, lineId)).map(({ at }) => at),
  forbidden: (lineId) => read(source.forbidden, lineId),
  routingLine: (lineId) => {
    const asked = read(source.line, lineId) ? read(wish, lineId) : null;
    return asked?.outcome === 'line' ? asked.line : null;
  },
  wishesOf: (lineId) => read(lineWishes, lineId),
  zonesAlong: (lineId) => read(zonesAlong, lineId),
  servicesAlong: (lineId) => read(servicesAlong, lineId),
  crossingsOf: (panelId) => read(crossingsOf, panelId),
  runsIn: (low, high) => read(runsInBox, boxKey(low, high)),
  surfaceOf: (partId) => read(surfaceOf, partId),
  circuit: () => read(circuit),
  runStates: () => read(source.runStates),
  operatingStates: () => read(source.operatingStates),
  runningWaters: () => read(runningWaters),
  greatestHeelWaters: () => read(greatestHeelWaters),
  ...carryFacts(read),
  ...powerFacts(read),
  ...floodFacts(read),
  ...serviceFacts(read),
  ...gradesOver(read),
});
