/** A place along a run, with whether something there could hold a clip. */
export interface ClipSpot {
  readonly alongM: number;
  readonly canHold: boolean;
  /** On a bend: a clip there is a poor one. */
  readonly isBent: boolean;
}

export interface PlacedClip {
  /** Place among the spots. */
  readonly spot: number;
  readonly isFar: boolean;
}

/**
 * The fewest clips between two ends that hold, each as far on as the spacing allows: on a straight where one is within reach, else
 * on a bend, else at the next place that holds. `fixedM`: where the run is clipped anyway.
 */
export function clipsAlong(
  spots: readonly ClipSpot[],
  lengthM: number,
  spacingM: number,
  fixedM: readonly number[],
): readonly PlacedClip[] {
  const clips: PlacedClip[] = [];
  const stops = [...fixedM].sort((a, b) => a - b);
  let last = 0;
  while (true) {
    const stop = stops.find((at) => at > last + DUST_M);
    const goal = stop ?? lengthM;
    if (goal - last <= spacingM + DUST_M) {
      if (stop === undefined) return clips;
      clips.push({ spot: nearest(spots, stop), isFar: false });
      last = stop;
      continue;
    }
    const within = (spot: ClipSpot): boolean => spot.alongM > last + DUST_M && spot.alongM <= last + spacingM + DUST_M;
    const straight = spots.findLastIndex((spot) => within(spot) && !spot.isBent && spot.canHold);
    const bent = spots.findLastIndex((spot) => within(spot) && spot.canHold);
    const next = spots.findIndex((spot) => spot.alongM > last + spacingM && spot.canHold);
    const found = straight >= 0 ? straight : bent >= 0 ? bent : next;
    const at = spots[found]?.alongM;
    if (at === undefined || at >= goal - DUST_M) {
      if (stop === undefined) return clips;
      clips.push({ spot: nearest(spots, stop), isFar: true });
      last = stop;
      continue;
    }
    clips.push({ spot: found, isFar: at - last > spacingM + DUST_M });
    last = at;
  }
}

const DUST_M = 1e-6;

const nearest = (spots: readonly ClipSpot[], at: number): number =>
  spots.reduce(
    (best, { alongM }, k) => (Math.abs(alongM - at) < Math.abs((spots[best]?.alongM ?? 0) - at) ? k : best),
    0,
  );
