import { create } from 'zustand';

/** The tables below the drawing. */
export const TABS = [
  'Parts',
  'Runs',
  'Unrolled',
  'Compartments',
  'Panels',
  'Openings',
  'Stations',
  'Hydrostatics',
  'Survey',
  'Service',
  'Take-off',
] as const;
export type Tab = (typeof TABS)[number];

export type DrawerHeight = 'closed' | 'usual' | 'tall';

interface DrawerState {
  readonly tab: Tab;
  readonly height: DrawerHeight;
  /** Words that the rows of the table must hold. */
  readonly filter: string;
  /** The field for them is up. */
  readonly searching: boolean;
  setTab(tab: Tab): void;
  setHeight(height: DrawerHeight): void;
  setFilter(filter: string): void;
  /** Put away, the field forgets its words: no row is hidden unseen. */
  setSearching(searching: boolean): void;
  /** Brings a table up, also from a closed drawer. */
  show(tab: Tab): void;
}

const NARROW_PX = 1280;

export const useDrawer = create<DrawerState>()((set, get) => ({
  tab: 'Parts',
  height: typeof window !== 'undefined' && window.innerWidth < NARROW_PX ? 'closed' : 'usual',
  filter: '',
  searching: false,
  // What was looked for in one table says nothing of another.
  setTab: (tab) => set(tab === get().tab ? { tab } : { tab, filter: '' }),
  setHeight: (height) => set({ height }),
  setFilter: (filter) => set({ filter }),
  setSearching: (searching) => set(searching ? { searching } : { searching, filter: '' }),
  show(tab) {
    get().setTab(tab);
    if (get().height === 'closed') set({ height: 'usual' });
  },
}));
