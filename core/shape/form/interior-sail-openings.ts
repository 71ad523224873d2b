import { foreBerthLids, passageOpenings } from './interior-furniture';
import type { PlanBuilder } from './interior-plan';

/** Hatches, doors, lids and boards of a sailing monohull, but for those of the settees. */
export function sailOpenings(b: PlanBuilder, hasHeads: boolean): void {
  const foreStand = hasHeads ? 'passage-sole' : 'saloon-sole';
  const add = b.opening.bind(b);
  add({
    id: 'lazarette-hatch',
    name: 'Lazarette hatch',
    compartment: 'lazarette',
    to: 'outside',
    face: 'top',
    mostM: [0.6, 0.5],
    how: 'hinged',
    weatherDeck: true,
    standing: 'deck-aft',
  });
  add({
    id: 'cockpit-lid',
    name: 'Cockpit locker lid',
    compartment: 'cockpit-locker',
    to: 'outside',
    face: 'top',
    mostM: [0.5, 1],
    how: 'hinged',
    weatherDeck: true,
    standing: 'cockpit',
  });
  add({
    id: 'companionway',
    name: 'Companionway',
    compartment: 'galley',
    to: 'outside',
    face: 'top',
    mostM: [0.62, 0.75],
    how: 'sliding',
    weatherDeck: true,
    standing: 'cockpit',
  });
  add({
    id: 'steps',
    name: 'Companionway steps',
    compartment: 'engine',
    to: 'galley',
    face: 'forward',
    mostM: [0.8, 0.7],
    how: 'liftOut',
    standing: 'galley-sole',
  });
  add({
    id: 'engine-hatch',
    name: 'Engine hatch in the cockpit sole',
    compartment: 'engine',
    to: 'cockpit',
    face: 'top',
    mostM: [0.6, 0.7],
    how: 'screwed',
    standing: 'cockpit',
  });
  add({
    id: 'quarter-board',
    name: 'Board in the quarter berth',
    compartment: 'quarter-void',
    to: 'quarter-berth',
    face: 'top',
    mostM: [0.46, 0.8],
    how: 'liftOut',
    moveFirst: ['Quarter berth cushion'],
    standing: 'galley-sole',
  });
  add({
    id: 'quarter-open',
    name: 'Foot of the quarter berth',
    compartment: 'quarter-berth',
    to: 'galley',
    face: 'forward',
    mostM: [0.6, 0.7],
    how: 'open',
    standing: 'galley-sole',
  });
  add({
    id: 'galley-door',
    name: 'Galley locker door',
    compartment: 'galley-locker',
    to: 'galley',
    face: 'inboard',
    mostM: [0.7, 0.6],
    how: 'hinged',
    standing: 'galley-sole',
  });
  add({
    id: 'galley-side-front',
    name: 'Galley side locker',
    compartment: 'galley-side',
    to: 'galley',
    face: 'inboard',
    mostM: [0.8, 0.4],
    how: 'sliding',
    standing: 'galley-sole',
  });
  add({
    id: 'nav-lid',
    name: 'Chart table seat lid',
    compartment: 'nav-locker',
    to: 'galley',
    face: 'top',
    mostM: [0.44, 0.9],
    how: 'liftOut',
    moveFirst: ['Seat cushion'],
    standing: 'galley-sole',
  });
  add({
    id: 'nav-door',
    name: 'Chart table locker door',
    compartment: 'nav-locker',
    to: 'galley',
    face: 'inboard',
    mostM: [0.62, 0.45],
    how: 'hinged',
    standing: 'galley-sole',
  });
  add({
    id: 'nav-side-front',
    name: 'Front of the chart table side locker',
    compartment: 'nav-side',
    to: 'galley',
    face: 'inboard',
    mostM: [0.9, 0.5],
    how: 'liftOut',
    standing: 'galley-sole',
  });
  add({
    id: 'sole-galley',
    name: 'Sole board, galley',
    compartment: 'mid-bilge',
    to: 'galley',
    face: 'top',
    mostM: [0.44, 0.6],
    how: 'liftOut',
    standing: 'galley-sole',
  });
  add({
    id: 'sole-forward',
    name: 'Sole board, forward',
    compartment: 'fore-bilge',
    to: hasHeads ? 'passage' : 'saloon',
    face: 'top',
    mostM: [0.4, 0.5],
    how: 'liftOut',
    standing: foreStand,
  });
  add({
    id: 'saloon-arch',
    name: 'Archway, galley to saloon',
    compartment: 'saloon',
    to: 'galley',
    face: 'aft',
    mostM: [0.9, 1.7],
    how: 'open',
    standing: 'galley-sole',
  });
  if (hasHeads) {
    passageOpenings(b, { id: 'passage-arch', name: 'Archway, saloon to passage' });
    add({
      id: 'hanging-door',
      name: 'Hanging locker door',
      compartment: 'hanging',
      to: 'passage',
      face: 'inboard',
      mostM: [0.55, 1.3],
      how: 'hinged',
      standing: 'passage-sole',
    });
  }
  add({
    id: 'forepeak-door',
    name: 'Fore cabin door',
    compartment: 'forepeak',
    to: hasHeads ? 'passage' : 'saloon',
    face: 'aft',
    mostM: [0.58, 1.2],
    how: 'hinged',
    standing: foreStand,
  });
  foreBerthLids(b, foreStand);
  add({
    id: 'chain-door',
    name: 'Chain locker door',
    compartment: 'chain',
    to: 'forepeak',
    face: 'aft',
    mostM: [0.4, 0.4],
    how: 'hinged',
    standing: foreStand,
  });
}
