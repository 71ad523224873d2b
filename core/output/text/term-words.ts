import { KIND_TERMS, TERMS, type Term } from './terms';

/** Under these words a label, a heading or a column of the screen means a term. Lower case, without a unit. */
const LABELS: Readonly<Record<string, Term>> = {
  accuracy: TERMS.grade,
  'above, %': TERMS.lowerBound,
  arrangement: TERMS.arrangement,
  'at least': TERMS.lowerBound,
  'clip points': TERMS.clipPoint,
  clear: TERMS.clearance,
  cost: TERMS.runCost,
  crossings: TERMS.crossing,
  displacement: TERMS.displacement,
  draught: TERMS.draught,
  'end fittings': TERMS.ferrule,
  envelope: TERMS.envelope,
  floating: TERMS.waterline,
  'greatest half-breadth': TERMS.halfBreadth,
  'hoses shorten': TERMS.makingUp,
  holes: TERMS.crossing,
  knuckles: TERMS.knuckle,
  'least bend radius': TERMS.bendRadius,
  'least clearance': TERMS.clearance,
  'made up, each end': TERMS.makingUp,
  'mounting surfaces': TERMS.mountingSurface,
  net: TERMS.netVolume,
  openings: TERMS.opening,
  posture: TERMS.posture,
  'room for service': TERMS.serviceSpace,
  'service tasks': TERMS.serviceSpace,
  sheer: TERMS.sheer,
  station: TERMS.station,
  stations: TERMS.station,
  'survey readings': TERMS.reading,
  sweeps: TERMS.sweep,
  taken: TERMS.grade,
  tape: TERMS.closeCall,
  'tightest bend, centre line': TERMS.bendRadius,
  'what may pass': TERMS.panelRule,
};

/** The term that a label stands for; null: it is a plain word. A unit at its end does not matter. */
export function termOfLabel(label: string): Term | null {
  const words = label.toLowerCase().replace(/ (mm|m|m²|kg|l|in|ft|ft in|inches)$/, '');
  return Object.hasOwn(LABELS, words) ? (LABELS[words] ?? null) : null;
}

export const termOfKind = (kind: string): Term | null =>
  Object.hasOwn(KIND_TERMS, kind) ? (KIND_TERMS[kind as keyof typeof KIND_TERMS] ?? null) : null;

/** Trade words in running text, with the term that each stands for: words of every day are left alone. */
const IN_TEXT: readonly (readonly [RegExp, Term])[] = [
  [/interrupting rating/, TERMS.interrupting],
  [/ampacity/, TERMS.ampacity],
  [/voltage drop/, TERMS.voltageDrop],
  [/bend radius/, TERMS.bendRadius],
  [/siphons?/, TERMS.siphon],
  [/vented loop/, KIND_TERMS.ventedLoop],
  [/suction/, TERMS.suction],
  [/high point|crest/, TERMS.highPoint],
  [/grommets?/, TERMS.grommet],
  [/clip points?/, TERMS.clipPoint],
  [/crimped|ferrules?/, TERMS.ferrule],
  [/bulkhead union/, KIND_TERMS.bulkheadUnion],
  [/waterline/, TERMS.waterline],
  [/heel/, TERMS.heel],
  [/green water/, TERMS.greenWater],
  [/seacocks?/, KIND_TERMS.seacock],
  [/skin fittings?/, KIND_TERMS.skinFitting],
  [/strainer/, KIND_TERMS.strainer],
  [/membranes?/, KIND_TERMS.membrane],
  [/busbars?/, KIND_TERMS.busbar],
  [/breakers?/, KIND_TERMS.breaker],
  [/brine/, TERMS.brine],
  [/flush(es|ed)?/, TERMS.flush],
  [/run-states?/, TERMS.runState],
  [/freeboards?/, TERMS.freeboard],
  [/stuffing box/, KIND_TERMS.stuffingBox],
  [/chainplates?/, KIND_TERMS.chainplate],
];
const ANY = new RegExp(`\\b(?:${IN_TEXT.map(([{ source }]) => source).join('|')})\\b`, 'gi');

/** A piece of running text, or a trade word in it. */
export interface TextPiece {
  readonly words: string;
  readonly term: Term | null;
}

/** Running text cut at the trade words in it, each only where it stands first; at most `most` of them. */
export function textPieces(text: string, most = 3): readonly TextPiece[] {
  const pieces: TextPiece[] = [];
  const known = new Set<Term>();
  let from = 0;
  for (const found of text.matchAll(ANY)) {
    const [words] = found;
    const term = IN_TEXT.find(([pattern]) => new RegExp(`^(?:${pattern.source})$`, 'i').test(words))?.[1];
    if (!term || known.has(term) || known.size >= most) continue;
    known.add(term);
    if (found.index > from) pieces.push({ words: text.slice(from, found.index), term: null });
    pieces.push({ words, term });
    from = found.index + words.length;
  }
  if (from < text.length) pieces.push({ words: text.slice(from), term: null });
  return pieces;
}
