import { type FlatPose, POSE_NUMBERS } from './arm';

/** Poses one after another, from the work outwards, in one array that grows: a search makes and drops thousands of them. */
export class Trail {
  private numbers = new Float64Array(POSE_NUMBERS * 64);
  count = 0;

  static of(pose: FlatPose): Trail {
    const trail = new Trail();
    trail.push(pose);
    return trail;
  }

  push(pose: FlatPose): void {
    if ((this.count + 1) * POSE_NUMBERS > this.numbers.length) {
      const larger = new Float64Array(this.numbers.length * 2);
      larger.set(this.numbers);
      this.numbers = larger;
    }
    this.numbers.set(pose, this.count * POSE_NUMBERS);
    this.count += 1;
  }

  /** Forgets all but the first poses. */
  cut(count: number): void {
    this.count = count;
  }

  /** Starts anew from one pose. */
  restart(pose: FlatPose): void {
    this.count = 0;
    this.push(pose);
  }

  read(index: number, into: FlatPose): void {
    const from = index * POSE_NUMBERS;
    for (let i = 0; i < POSE_NUMBERS; i += 1) into[i] = this.numbers[from + i] as number;
  }

  readLast(into: FlatPose): void {
    this.read(this.count - 1, into);
  }

  lastPose(): FlatPose {
    return this.numbers.slice((this.count - 1) * POSE_NUMBERS, this.count * POSE_NUMBERS);
  }

  /** A copy of the poses from one place on. */
  posesFrom(index: number): readonly FlatPose[] {
    return Array.from({ length: Math.max(0, this.count - index) }, (_, k) =>
      this.numbers.slice((index + k) * POSE_NUMBERS, (index + k + 1) * POSE_NUMBERS),
    );
  }
}
