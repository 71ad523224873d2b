import type { JoinRefusal, PortAt } from '../../boat/joins';
import type { Boat } from '../../boat/schema/boat';
import { nameOf } from './names';
import { mediumText } from './schema-words';

/** `PM-1 Pump module, pressure`. */
export const portText = (boat: Boat, { thing, port }: PortAt): string => `${nameOf(boat, thing)}, ${port}`;

/** Why two ports cannot be joined, and what to do instead. */
export function joinRefusalText(boat: Boat, refusal: JoinRefusal): string {
  switch (refusal.why) {
    case 'samePort':
      return 'This is the port itself. Go on to another one.';
    case 'sameThing':
      return 'Both ports are on the same thing. A line leads from one thing to another.';
    case 'bothGive':
      return 'Something comes out of both ports. Choose one that takes it.';
    case 'bothTake':
      return 'Both ports take something in. Choose one that gives it.';
    case 'media':
      return `One carries ${mediumText(refusal.from)}, the other ${mediumText(refusal.to)}. They do not go together.`;
    case 'taken':
      return `${portText(boat, refusal.at)} has ${nameOf(boat, refusal.line)} on it already. Lead that line elsewhere first.`;
    case 'noSuchPort':
      return `${portText(boat, refusal.at)} is not there any more.`;
  }
}
