import { serviceRoom } from '../../assess/access/service-room';
import { along, type Vec3 } from '../../base/vec';
import type { Service } from '../../boat/schema/boat';
import type { Blocker, FreeDepth } from '../../shape/space/free-depth';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { GradeShare } from '../finding';
import { type Judged, judge } from '../judge';

/** A part that fits and cannot be serviced is in the wrong place. */
export const serviceSpace = defineRule({
  id: 'access/service-space',
  question: 'Has every bowl, element, cover and glass the clear space that its service needs?',
  sources: [
    { key: 'boat-file', standing: 'boatFile' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  cannotSee: ['Hoses and cables in the way.', 'Whether a hand, an arm or an eye gets there.', 'What is stowed there.'],
  subjects: (facts) => facts.thingIds().filter((id) => Object.keys(facts.thing(id)?.services ?? {}).length > 0),
  check(id, facts): readonly Verdict[] {
    const thing = facts.thing(id);
    const pose = facts.pose(id);
    if (!thing || !pose) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const verdicts: Verdict[] = [];
    const alternatives = new Map<string, Room[]>();
    for (const key of Object.keys(thing.services).sort()) {
      const service = thing.services[key];
      if (!service) continue;
      const room = roomOf(id, key, service, facts);
      if (!room) continue;
      if (service.either) alternatives.set(service.either, [...(alternatives.get(service.either) ?? []), room]);
      else verdicts.push(verdictOf(room, key));
    }
    // of alternatives, the roomiest speaks for all of them
    for (const [name, rooms] of alternatives) {
      const best = rooms.reduce((a, b) =>
        (Number(b.judged.met) - Number(a.judged.met) ||
          b.free.freeM / b.service.clearM - a.free.freeM / a.service.clearM) > 0
          ? b
          : a,
      );
      verdicts.push(verdictOf(best, name));
    }
    return verdicts;
  },
});

interface Room {
  readonly key: string;
  readonly service: Service;
  readonly free: FreeDepth;
  readonly judged: Judged;
  readonly at: Vec3;
}

function roomOf(id: string, key: string, service: Service, facts: Facts): Room | null {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  if (!thing || !pose) return null;
  const { face, free } = serviceRoom(service, pose, {
    layout: facts.layout(),
    hull: facts.hull(),
    openings: facts.openings(),
    solidsIn: (low, high) => facts.solidsIn(low, high).filter(({ owner }) => owner !== id),
  });
  const grade = [facts.gradeOf(id), ...(free.blocker ? [gradeOfBlocker(free.blocker, facts)] : [])];
  const judged = judge({ value: free.freeM, limit: service.clearM, bound: 'atLeast', unit: 'm', grade });
  return { key, service, free, judged, at: along(face.at, face.direction, free.freeM / 2) };
}

const gradeOfBlocker = ({ id, owner, layer, at }: Blocker, facts: Facts): GradeShare =>
  layer === 'hull' ? facts.gradeOfHull(at) : layer === 'wall' ? facts.gradeOfWall(id) : facts.gradeOf(owner);

function verdictOf({ service, free, judged, at }: Room, instance: string): Verdict {
  const { met, ...compared } = judged;
  const blocker = free.blocker;
  const verdict = {
    instance,
    ...compared,
    related: blocker ? [blocker.owner] : [],
    at: blocker?.at ?? at,
    data: {
      task: service.name ?? service.task,
      freeM: free.freeM,
      blocker: blocker?.owner ?? null,
      blockerLabel: blocker?.label ?? null,
      capped: !blocker,
    },
  };
  return met
    ? { outcome: 'pass', ...verdict }
    : { outcome: 'fail', severity: 'fault', reason: 'tooLittle', ...verdict };
}
