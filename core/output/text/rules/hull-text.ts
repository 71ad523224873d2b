import { BIND_WITHIN_M } from '../../../shape/layout/bind';
import type { Orphan } from '../../../shape/layout/types';
import { counted, heel, mm, number, type RuleWords, type Said, type Say, type SayInput, word } from '../say';

/** Words of the rules about the hull and what is screwed to it. */
export const HULL_TEXT: Readonly<Record<string, RuleWords>> = {
  'hull/compartment-overlap': {
    fail: {
      shareSpace: ({ subject, data, name, finding }) => ({
        title: `${subject} and ${name(word(data.other))} share space`,
        why: `They overlap by ${finding.outcome === 'fail' ? mm(finding.measured.value) : ''}. Draw the border between them: runs and parts there belong to neither.`,
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} overlaps no other compartment`, why: '' }) },
  },
  'hull/panel-record': {
    pass: { pass: ({ subject }) => ({ title: `${subject} belongs to its panel`, why: '' }) },
    cannotTell: {
      noSuchPair: (input) => ({
        title: `${lostRecord(input)} belongs to no panel`,
        why: 'The two compartments that it names have no face in common.',
      }),
      tooFar: (input) => ({
        title: `${lostRecord(input)} belongs to no panel`,
        why: `Its point lies more than ${mm(BIND_WITHIN_M)} from every panel of that pair.`,
      }),
      setAside: (input) => ({
        title: `${lostRecord(input)} belongs to no panel`,
        why: 'Its compartments were merged or deleted. Bind it to a panel in Compartments, or remove it.',
      }),
      openPanel: (input) => ({
        title: `${lostRecord(input)} is planned in an open panel`,
        why: 'A hose passes there without a hole. Remove it, or say that the panel is to be drilled.',
      }),
      takenByNearer: (input) => ({
        title: `${lostRecord(input)}: its panel is taken`,
        why: 'Another record lies nearer to the same panel.',
      }),
    } satisfies Record<Orphan['reason'], Say>,
  },
  'hull/seacock': {
    fail: {
      noSeacock: ({ data }) => ({
        title: `No seacock at ${word(data.joint)}`,
        why: `It lies ${mm(data.depthM)} under water, ${heel(data)}, and cannot be shut off.${number(data.lines) > 0 ? ` ${counted(number(data.lines), 'line behind it stays', 'lines behind it stay')} open to the sea.` : ''} Holes below the waterline: follow local codes and have the work checked.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: data.dry ? `${subject} stays above the water` : `${subject} can be shut off`,
        why: data.dry
          ? `${word(data.joint)} has no valve. It is dry at the greatest heel, but not by much.`
          : `${word(data.joint)} has a valve.`,
      }),
    },
  },
  'hull/mounting': {
    fail: {
      nothingUnder: ({ subject, data, name }) => ({
        title: `Nothing is drawn that ${subject} can be screwed to`,
        why: data.isBeside
          ? `${name(word(data.surface))} comes nearest, and ends before its foot does. Move it, or fit a pad and draw it.`
          : `${name(word(data.surface))} comes nearest, and its mounting face is too far off it. Move it, or fit a pad and draw it.`,
      }),
      facesAway: ({ subject, data, name }) => ({
        title: `${subject} does not face ${name(word(data.surface))}`,
        why: 'Its mounting face looks another way than the surface that it is screwed to. Turn it, or name another surface.',
      }),
      offSurface: ({ subject, data, name }) => ({
        title: `${subject} does not lie on ${name(word(data.surface))}`,
        why: 'Its mounting face is off the surface that it is screwed to. Move it, pack it out, or name another surface.',
      }),
      overhangs: ({ subject, data, name }) => ({
        title: `The foot of ${subject} reaches beyond ${name(word(data.surface))}`,
        why: 'Screws at that side find nothing. Move it, or widen the surface by a pad.',
      }),
      holdsNothing: ({ subject, data, name }) => ({
        title: `${name(word(data.surface))} does not hold ${subject}`,
        why: `${HOLDS_NOTHING[word(data.part)] ?? 'That'} carries nothing heavy. Fit a pad or plywood of 18 mm, tabbed to the hull or bolted to a bulkhead.`,
      }),
      looseBoard: ({ subject, data, name }) => ({
        title: `${name(word(data.surface))} is only ${word(data.fixing)}, and ${subject} shakes`,
        why: 'It works loose. Tab the board to the hull, or bolt it to a bulkhead.',
      }),
      tooThin: ({ subject, data, name }) => ({
        title: `${name(word(data.surface))} is too thin for ${subject}`,
        why: 'What is heavy and shakes pulls its screws out of thin board. Double it, or bolt through with large washers.',
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `${subject} is screwed to ${name(word(data.surface))}`,
        why: '',
      }),
    },
    cannotTell: {
      noSurface: ({ subject }) => ({
        title: `What is ${subject} screwed to?`,
        why: 'No mounting surface that it could lie on is drawn in its compartment.',
      }),
    },
  },
  'hull/screw-length': {
    fail: {
      reachesHull: (input) => tooLong(input, 'the hull'),
      reachesTank: (input) => tooLong(input, input.data.blocker ? input.name(word(input.data.blocker)) : 'a tank'),
      reachesLoom: (input) => tooLong(input, input.data.blocker ? input.name(word(input.data.blocker)) : 'a loom'),
      reachesThing: (input) => tooLong(input, input.name(word(input.data.blocker))),
      reachesBeyond: (input) => tooLong(input, 'what lies beyond the free depth'),
    },
    pass: {
      pass: ({ subject, data, finding }) => ({
        title: `Screws of ${subject} end in time`,
        why:
          finding.outcome === 'pass' && finding.measured.value > 0
            ? `${mm(finding.measured.value)} come out behind ${mm(data.thicknessM)} of board.`
            : 'They end in the board.',
      }),
    },
    cannotTell: {
      behindUnknown: ({ subject, data, name }) => ({
        title: `What do the screws of ${subject} meet?`,
        why: `${mm(data.outM)} come out behind ${name(word(data.surface))}, and nobody says what is there.`,
      }),
    },
    compared: (finding, length) =>
      finding.measured.value <= 0
        ? `${length(-finding.measured.value)} short of the back`
        : finding.outcome === 'pass' && finding.measured.value === finding.limit.value
          ? `${length(finding.measured.value)} out at the back`
          : `${length(finding.measured.value)} out at the back, ${length(finding.limit.value)} free`,
  },
  'hull/new-hole': {
    fail: {
      unchecked: ({ subject, data }) => ({
        title: `A hole below the water is planned for ${subject}, and its place was not looked at`,
        why: `It lies ${mm(data.depthM)} under water. Look at it from inside and outside, and enter what was looked at. Still open: ${checksText(word(data.missing))}.`,
      }),
      notWanted: ({ subject, data }) => ({
        title: `A hole below the water is planned for ${subject}, against the owner's wish`,
        why: `It lies ${mm(data.depthM)} under water, and must be made ashore. Use a through-hull that is there, or give up the wish.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: number(data.depthM) > 0 ? `The hole for ${subject} was looked at` : `The hole for ${subject} stays dry`,
        why: number(data.depthM) > 0 ? `It lies ${mm(data.depthM)} under water.` : 'But not by much.',
      }),
    },
    compared: (finding, length) => (finding.outcome === 'fail' ? `${length(finding.measured.value)} under water` : ''),
  },
  'hull/through-hull-sound': {
    fail: {
      gateValve: (input) =>
        unsound(
          input,
          'is a gate valve',
          'Its stem corrodes and its gate jams half open. Replace it by a seacock first',
        ),
      plainBrass: (input) =>
        unsound(
          input,
          'is of plain brass',
          'Brass loses its zinc in sea water and snaps. Replace it first, by bronze or plastic made for it',
        ),
      unbacked: (input) =>
        unsound(
          input,
          'has no pad behind it',
          'A step on it levers it out of the shell. Bed a pad that spreads the load',
        ),
      old: ({ subject }) => ({
        title: `${subject} is old`,
        why: 'Take its hose off ashore, look at thread, bolts and colour of the metal, and renew it where in doubt.',
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `Nothing speaks against ${subject}`, why: '' }) },
    compared: (finding, length) =>
      finding.limit.unit === 'm'
        ? `${length(finding.measured.value)} under water`
        : finding.limit.value > 0
          ? `${counted(finding.measured.value, 'year', 'years')}, at most ${finding.limit.value}`
          : '',
  },
};

const lostRecord = ({ subject, data }: SayInput): string =>
  `${data.what === 'newHole' ? 'New hole' : 'Panel record'} ${subject}`;

const HOLDS_NOTHING: Readonly<Record<string, string>> = {
  lining: 'A lining',
  tank: 'The wall of a tank',
  skin: 'The bare skin',
};

const tooLong = ({ subject, data }: SayInput, what: string): Said => ({
  title: `Screws of ${subject} reach ${what}`,
  why: `They are ${mm(data.screwM)} long and pass ${mm(number(data.footM) + number(data.thicknessM))} of foot and board. Take shorter ones, or pack the foot.`,
});

const CHECKS: Readonly<Record<string, string>> = {
  stringer: 'stringer or frame',
  core: 'core in the shell',
  keel: 'keel and its stub',
  tabbing: 'tabbing',
  slingLine: 'line of the lifting slings',
  strut: 'strut and shaft',
  flangeRoom: 'room for flange and pad',
};

const checksText = (missing: string): string =>
  missing
    .split(',')
    .map((check) => CHECKS[check] ?? check)
    .join(', ');

const unsound = ({ subject, data }: SayInput, is: string, advice: string): Said => ({
  title: `${subject} ${is}`,
  why: `It lies ${mm(data.depthM)} under water, ${heel(data)}. ${advice}: that is done ashore.${data.isUnwanted ? ' The owner wants no haul-out: then choose another through-hull.' : ''}`,
});
