/** Why a service task goes or does not, by the key that the engine gives: begins a sentence, without its end. */
const WHY: Readonly<Record<string, string>> = {
  reached: 'Reached',
  afterRemoving: 'Reached once that is out of the way',
  seen: 'Seen with the eye',
  seenInMirror: 'Seen in a hand mirror, not with the eye alone',
  clear: 'Its room is clear',
  out: 'It comes straight out',
  outTilted: 'It comes out tilted and sideways',
  outCarried: 'It comes out slid and turned, as it came in',
  turns: 'The tool turns',
  vesselFits: 'What is put under it has room',
  noRoomForHand: 'The hand has no room at its place',
  noRoomForForearm: 'The forearm has no room behind the hand',
  noRoomForUpperArm: 'No place for elbow and shoulder lets the hand get there',
  noWayInForArm: 'The hand has a place there, and no way in was found for the arm',
  openingTooSmall: 'The opening is smaller than what of an arm is in it at that depth (table of hand openings)',
  openingTooSmallForTwo: 'The opening is smaller than two arms take at that depth (table of hand openings)',
  needsBothHands: 'It takes both hands, and whoever does it has the use of one arm',
  noPlaceForEyes: 'There is no place for the eyes before it',
  seenTooFar: 'The eyes do not come near enough to read it',
  seenAslant: 'It is seen too aslant to be read',
  notSeen: 'The view is blocked',
  mirrorNotHeld: 'A mirror would show it, and no way was found to hold it there',
  stuck: 'It does not come out far enough',
  stuckCarried: 'It does not come straight out, and no other way out was found',
  stuckTilted: 'It comes out neither straight nor tilted',
  noSwing: 'The tool does not turn far enough',
  leverStopped: 'The handle does not make its turn',
  noRoomInFront: 'The driver and the hand on it have no room before the screw',
  handStopsTool: 'The tool turns, and the hand on it does not get to both ends of its swing',
  noRoomBelow: 'What catches it has no room below',
  noRoomAbove: 'The funnel has no room above',
  noOpening: 'No opening is drawn into its compartment',
  nowhereToStand: 'There is nowhere to stand, kneel or lie from which its opening is had',
};

/** Reasons that something in the way explains further. */
const DONE: ReadonlySet<string> = new Set([
  'reached',
  'afterRemoving',
  'seen',
  'clear',
  'out',
  'outTilted',
  'outCarried',
  'turns',
  'vesselFits',
]);

/** `blockers`: what stands in the way, named; empty where nothing is. */
export function whyText(reason: string, blockers: string): string {
  const words = WHY[reason] ?? '';
  return words === '' || blockers === '' || DONE.has(reason) ? words : `${words}: ${blockers}`;
}
