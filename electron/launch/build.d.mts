export type Target = 'renderer' | 'desktop' | 'cli';
export function stale(targets?: readonly Target[]): readonly Target[];
export function ensureBuilt(targets?: readonly Target[]): void;
