import type { Bundle } from '../assess/power/bundles';
import type { Carrying } from '../assess/power/carrying';
import type { Distribution } from '../assess/power/distribution';
import type { GasSpace } from '../assess/power/gas-spaces';
import type { LockerAir } from '../assess/power/locker-air';
import type { Compartment } from '../boat/schema/boat';
import type { Needs } from '../boat/schema/needs';

/** What rules about power may know besides. */
export interface PowerFacts {
  readonly compartment: (id: string) => Compartment | null;
  /** Compartments that the run of a line passes, sorted; none without a run. */
  readonly compartmentsAlong: (lineId: string) => readonly string[];
  /** Power cables from their sources to what draws from them. */
  readonly distribution: () => Distribution;
  /** What lies in one bundle with a power cable. */
  readonly bundle: (lineId: string) => Bundle;
  /** What a power cable may carry where it lies; null where that cannot be told. */
  readonly carrying: (lineId: string) => Carrying | null;
  /** Current in a power cable: what it says, or what is drawn behind it; null where nobody says. */
  readonly currentIn: (lineId: string) => number | null;
  /** Compartments that gas or petrol vapour can get into, by id. */
  readonly gasSpaces: () => Readonly<Record<string, GasSpace>>;
  /** Things with gas about them and how far it reaches, and lockers of bottles, which may be of none; sorted by id. */
  readonly gasThings: () => readonly { readonly id: string; readonly radiusM: number; readonly isLocker: boolean }[];
  /** Air of a compartment while what gives off heat in it runs, engines excepted. */
  readonly lockerAir: (compartment: string) => LockerAir | null;
  readonly needs: () => Needs | null;
  /** A petrol engine or tank is aboard: 33 CFR 183 Subpart I binds. */
  readonly isPetrol: () => boolean;
}
