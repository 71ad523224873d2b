import type { Hint } from '../../store/hints';

/** What each hint says: what can be done there, by mouse and by keyboard. */
export const HINT_WORDS: Readonly<Record<Hint, { readonly title: string; readonly text: string }>> = {
  pump: {
    title: 'Drag the pump',
    text: 'Its hoses follow, and every check is done again. By keyboard: pick it in the table, then arrow keys on the drawing.',
  },
  finding: {
    title: 'A finding says why',
    text: 'What was measured, against what limit, from which source. Press one and the drawing goes there. Key N: the next.',
  },
  run: {
    title: 'Pull a run',
    text: 'Pick a hose and pull it to where you would lay it. It is routed again through that place.',
  },
  list: {
    title: 'Print the list',
    text: 'Sheets holds what to buy, where to cut and what to drill, as a table and as drawings to scale.',
  },
  own: {
    title: 'Enter your own boat',
    text: 'Length, beam and draught make a first hull in ten minutes. The tape makes it better, reading by reading.',
  },
};
