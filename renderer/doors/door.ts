import { create } from 'zustand';

/** A page in place of the board on which a boat begins; null: the board, or the start. */
export type Door = 'oneLocker' | 'tenMinutes' | null;

interface DoorState {
  readonly door: Door;
  show(door: Door): void;
}

/** What was typed behind a door is kept by the door itself: leaving loses nothing. */
export const useDoor = create<DoorState>()((set) => ({
  door: null,
  show: (door) => set({ door }),
}));
