import { useApp } from '../store/app';
import { useDrawer } from '../store/drawer';
import { thingOf } from '../store/select';
import { useService } from '../store/service';
import { needsBoat } from './availability';
import type { Command } from './command';

const store = useService.getState;

const needsRehearsal = (): string | null => (store().chosen === null ? 'Choose a service task first' : null);

const people = (): readonly string[] => Object.keys(useApp.getState().boat?.people ?? {});

const serviced = (): string | null => {
  const { boat, selection } = useApp.getState();
  const thing = boat && selection?.kind === 'thing' ? thingOf(boat, selection.id) : null;
  return thing && selection && Object.keys(thing.services).length > 0 ? selection.id : null;
};

/** The next task of the selected thing, round and round. */
function rehearseNext(): void {
  const id = serviced();
  const { boat } = useApp.getState();
  if (id === null || !boat) return;
  const keys = Object.keys(thingOf(boat, id)?.services ?? {}).map((service) => `${id}/${service}`);
  const next = keys[(keys.indexOf(store().chosen ?? '') + 1) % keys.length];
  if (next !== undefined) store().choose(next);
}

export const SERVICE_COMMANDS: readonly Command[] = [
  {
    id: 'service-tasks',
    words: 'Service tasks',
    group: 'Service',
    also: 'can it be serviced reach maintenance table verdicts',
    keys: 'S',
    why: needsBoat,
    run: () => {
      store().setView('tasks');
      useApp.getState().setStage('checks');
      useDrawer.getState().show('Service');
    },
  },
  {
    id: 'service-minutes',
    words: 'Minutes of service a year',
    group: 'Service',
    also: 'burden time work interval',
    why: needsBoat,
    run: () => {
      store().setView('minutes');
      useApp.getState().setStage('checks');
      useDrawer.getState().show('Service');
    },
  },
  {
    id: 'service-person',
    words: 'Judge service by the reach of the next person',
    group: 'Service',
    also: 'people whose arm body size',
    why: () => {
      const count = people().length;
      return count === 0 ? 'Enter people of the boat first' : count === 1 ? 'There is only one person' : null;
    },
    run: () => {
      const ids = people();
      const { person, report, setPerson, want } = store();
      const next = ids[(ids.indexOf(person ?? report?.person.id ?? ids[0] ?? '') + 1) % ids.length];
      want();
      if (next !== undefined) setPerson(next);
    },
  },
  {
    id: 'rehearse',
    words: 'Rehearse a service task of the selected thing',
    group: 'Service',
    also: 'reach sight posture steps next task',
    keys: 'Q',
    why: () => (serviced() === null ? 'Select a thing with service tasks first' : null),
    run: rehearseNext,
  },
  {
    id: 'rehearsal-next',
    words: 'Next step of the rehearsal',
    group: 'Service',
    keys: 'Right',
    moreKeys: ['.'],
    where: 'rehearsal',
    why: needsRehearsal,
    run: () => store().goToStep(store().step + 1),
  },
  {
    id: 'rehearsal-before',
    words: 'Step before in the rehearsal',
    group: 'Service',
    keys: 'Left',
    moreKeys: [','],
    where: 'rehearsal',
    why: needsRehearsal,
    run: () => store().goToStep(store().step - 1),
  },
  {
    id: 'rehearsal-play',
    words: 'Play the rehearsal, or pause it',
    group: 'Service',
    also: 'animate run',
    keys: 'Shift Q',
    why: needsRehearsal,
    run: () => store().play(!store().isPlaying),
  },
  {
    id: 'rehearsal-end',
    words: 'Back from the rehearsal to the board',
    group: 'Service',
    also: 'close leave exit',
    why: needsRehearsal,
    run: () => store().choose(null),
  },
];
