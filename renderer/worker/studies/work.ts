import type { HoleRanking } from '@core/assess/water/which-hole';
import type { Boat } from '@core/boat/schema/boat';
import { sameValue } from '@core/boat/schema-walk';
import { firstBoat, shellOf } from '@core/engine/first-boat/first-boat';
import { setIntoBoat } from '@core/engine/first-boat/set-into-boat';
import { answerAlone, lockerAnswers } from '@core/engine/fit/one-locker';
import type { InSlices, Underway } from '@core/engine/in-slices';
import { Session } from '@core/engine/session';
import { hullSurface } from '@core/shape/hull/surface';
import { deriveLayout } from '@core/shape/layout/derive';
import { type UndrawnSpace, undrawnSpace } from '@core/shape/layout/undrawn';
import { type NetVolume, netVolume } from '@core/shape/space/net-volume';
import { viewsOf } from '../../doors/ten-minutes/views';
import type { Partly, PlainShell, Studies, StudyKind, ToStudies } from './protocol';

/**
 * The work on one question, in slices: between two of them another may be taken up, or this one dropped. Long work tells how far it
 * is, and what it has of its answer.
 */
type Work<K extends StudyKind> = Generator<Underway<Partly<K>> | undefined, Studies[K]['gives'], void>;

/** What one worker knows from one question to the next. */
export function studyWork(): (message: Extract<ToStudies, { type: 'study' }>) => Work<StudyKind> {
  let session: Session | null = null;
  let lastLocker: Studies['locker']['from'] | null = null;

  function* locker(from: Studies['locker']['from']): Work<'locker'> {
    // What the engine found for a part it keeps by the part and the locker themselves, and these were copied on the way.
    const own = kept(lastLocker, from);
    lastLocker = own;
    for (const [id, part] of Object.entries(own.parts)) {
      answerAlone(own.locker, id, part);
      yield;
    }
    return lockerAnswers(own.locker, own.parts);
  }

  /** What did not change since the last question is not worked out again. */
  function sessionOf(boat: Boat): Session {
    if (session === null) session = new Session(boat);
    else session.open(boat);
    return session;
  }

  const holes = ({ boat, year }: Studies['holes']['from']): HoleRanking => sessionOf(boat).holes(year);

  function* ofBoat<T, P = never>(
    boat: Boat,
    start: (of: Session) => InSlices<T, P>,
  ): Generator<Underway<P> | undefined, T, void> {
    yield;
    const own = sessionOf(boat);
    // Other questions about this boat begin from here, too.
    own.settled();
    yield;
    return yield* inTurns(start(own));
  }

  /** The first bounds wait for no settled answer. */
  function* places({ boat, parts }: Studies['places']['from']): Work<'places'> {
    yield;
    return yield* inTurns(sessionOf(boat).places(parts));
  }

  return (message) => {
    switch (message.kind) {
      case 'shell':
        return inOne(() => plainShell(message.from));
      case 'wholeSet':
        return inOne(() => setIntoBoat(message.from));
      case 'firstBoat':
        return untold(firstBoat(message.from));
      case 'locker':
        return locker(message.from);
      case 'holes':
        return inOne(() => holes(message.from));
      case 'remedies':
        return ofBoat(message.from.boat, (own) => own.remedies(message.from.lineId));
      case 'mends':
        return ofBoat(message.from.boat, (own) => own.mends(message.from.key));
      case 'alternatives':
        return ofBoat(message.from.boat, (own) => own.alternatives(message.from.lineId));
      case 'places':
        return places(message.from);
      case 'service':
        return ofBoat(message.from.boat, (own) => own.service(message.from.person));
      case 'rehearsal':
        return ofBoat(message.from.boat, (own) => own.rehearsal(message.from.key, message.from.person));
      case 'stowage':
        return inOne(() => sessionOf(message.from.boat).stowage());
      case 'undrawn':
        return inOne(() => undrawn(message.from));
      case 'volumes':
        return volumes(message.from);
    }
  };
}

/** A slice a turn. */
function* inTurns<T, P>(work: InSlices<T, P>): Generator<Underway<P>, T, void> {
  for (;;) {
    const step = work.step();
    if ('answer' in step) return step.answer;
    yield step;
  }
}

/** Work that has no slices: a turn passes before it, in which it may still be dropped. */
function* inOne<T>(work: () => T): Generator<undefined, T, void> {
  yield;
  return work();
}

/** Work in slices that does not tell how far it is. */
function* untold<T>(work: Generator<void, T, void>): Generator<undefined, T, void> {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    yield;
  }
}

function undrawn({ interior, hull }: Studies['undrawn']['from']): UndrawnSpace {
  return undrawnSpace(deriveLayout(interior), hullSurface(hull));
}

function* volumes({ ids, interior, hull, fixtures }: Studies['volumes']['from']): Work<'volumes'> {
  yield;
  const layout = deriveLayout(interior);
  const surface = hull ? hullSurface(hull) : null;
  const found: Record<string, NetVolume> = {};
  for (const id of ids) {
    found[id] = netVolume({ compartments: interior.compartments, fixtures, hull }, layout, surface, id);
    yield;
  }
  return found;
}

function plainShell(from: Studies['shell']['from']): PlainShell {
  const made = shellOf(from);
  if (!made.ok) return made;
  const { surface, ...plain } = made;
  return { ...plain, views: viewsOf(made.interior, surface) };
}

/** The locker and the parts of before wherever they are the same. */
function kept(before: Studies['locker']['from'] | null, now: Studies['locker']['from']): Studies['locker']['from'] {
  if (before === null) return now;
  const same = <T>(old: T | undefined, own: T): T => (old !== undefined && sameValue(old, own) ? old : own);
  const parts = Object.entries(now.parts).map(([id, part]) => [id, same(before.parts[id], part)] as const);
  return { locker: same(before.locker, now.locker), parts: Object.fromEntries(parts) };
}
