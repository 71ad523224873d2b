/**
 * Keyed stages with recorded reads and equality cut-off. A node is one stage at one key. To bring a node up to date its
 * reads are verified first, in the order in which they were made; only when one of them has another value than the node saw
 * is the node computed again, and when the new value is the same as the old one, the old one is kept, so that what reads it
 * stays untouched. What a node saw is kept beside it: values that change and change back cost nothing.
 */
export interface ComputedStage<T> {
  readonly id: string;
  compute(key: string, read: Read): T;
  same(a: T, b: T): boolean;
}

/** Work that can be put down and taken up again: about so many steps a time, null until it is done. */
export interface Work<T> {
  step(steps: number): T | null;
}

/** A stage whose computation can be cut into slices. */
export interface SlicedStage<T> extends ComputedStage<T> {
  start(key: string, read: Read): Work<T>;
}

/** A stage of work in slices: asked for like any other, it is worked out in one. */
export const slicedStage = <T>(stage: Omit<SlicedStage<T>, 'compute'>): SlicedStage<T> => ({
  ...stage,
  compute: (key, read) => {
    const work = stage.start(key, read);
    for (;;) {
      const value = work.step(Number.POSITIVE_INFINITY);
      if (value !== null) return value;
    }
  },
});

/** A stage that looks at what the store was given, and at nothing else. */
export interface InputStage<S, T> {
  readonly id: string;
  select(source: S, key: string): T;
  same(a: T, b: T): boolean;
}

export type Stage<T> = ComputedStage<T> | InputStage<never, T>;
export type Read = <T>(stage: Stage<T>, key?: string) => T;

interface Seen {
  readonly node: Node;
  value: unknown;
}

interface Node {
  readonly stage: Stage<unknown>;
  readonly key: string;
  value: unknown;
  reads: readonly Seen[];
  /** Nodes whose last computation read this one. */
  readonly readers: Set<Node>;
  /** Revision in which the value was last found to hold; 0: never computed. */
  verifiedAt: number;
  /** Something below may have changed since. */
  isTouched: boolean;
  computing: boolean;
  /** The computation that read this node last, to record a read once. */
  readBy: object | null;
}

export const identical = <T>(a: T, b: T): boolean => Object.is(a, b);
export const sameItems = <T>(a: readonly T[], b: readonly T[]): boolean =>
  a === b || (a.length === b.length && a.every((item, index) => Object.is(item, b[index])));

export class Store<S> {
  private readonly nodes = new Map<string, Map<string, Node>>();
  private revision = 1;
  private liveAfterSweep = 0;
  private readonly counts = new Map<string, number>();

  constructor(private source: S) {}

  /** Gives the store a new source. Values are judged afresh when they are next read. */
  set(source: S): void {
    this.source = source;
    this.revision += 1;
  }

  /**
   * Gives the store a new source of which the caller knows that only these inputs may differ: all else is known to hold and is
   * not even looked at. For the steps of a drag.
   */
  setFew(source: S, inputs: readonly (readonly [InputStage<S, unknown>, string])[]): void {
    this.source = source;
    for (const [stage, key] of inputs) {
      const node = this.nodes.get(stage.id)?.get(key);
      if (node) touch(node);
    }
  }

  /** A store of its own that begins with all that is known here. What either of them learns from then on, the other does not. */
  fork(): Store<S> {
    const twin = new Store(this.source);
    twin.revision = this.revision;
    const copies = new Map<Node, Node>();
    const copyOf = (node: Node): Node => {
      const known = copies.get(node);
      if (known) return known;
      const copy: Node = { ...node, reads: [], readers: new Set(), readBy: null };
      copies.set(node, copy);
      copy.reads = node.reads.map((seen) => ({ node: copyOf(seen.node), value: seen.value }));
      for (const { node: below } of copy.reads) below.readers.add(copy);
      return copy;
    };
    for (const [id, keys] of this.nodes)
      twin.nodes.set(id, new Map([...keys].map(([key, node]) => [key, copyOf(node)])));
    return twin;
  }

  readonly read: Read = <T>(stage: Stage<T>, key = ''): T => {
    const node = this.node(stage, key);
    this.verify(node);
    return node.value as T;
  };

  /**
   * Works out one node in slices, with the reads and the value that it would have if it were worked out at once; null where
   * the value stands already. `step` tells whether it is done. The work is void as soon as the store is given another source.
   */
  inSlices<T>(stage: SlicedStage<T>, key = ''): { step(steps: number): boolean } | null {
    const node = this.node(stage as Stage<unknown>, key);
    if (this.stands(node)) return null;
    const { revision } = this;
    const reads: Seen[] = [];
    const work = stage.start(key, this.recorder(reads, {}));
    return {
      step: (steps) => {
        if (this.revision !== revision) throw new Error(`Store: ${stage.id} of "${key}" was begun for another source`);
        const value = work.step(steps);
        if (value === null) return false;
        this.counts.set(stage.id, (this.counts.get(stage.id) ?? 0) + 1);
        this.keep(node, value, reads);
        return true;
      },
    };
  }

  private stands(node: Node): boolean {
    if (node.verifiedAt === this.revision && !node.isTouched) return true;
    if (node.verifiedAt === 0 || !this.readsHold(node)) return false;
    this.settle(node);
    return true;
  }

  /** Computations so far, by stage. */
  computed(): ReadonlyMap<string, number> {
    return new Map(this.counts);
  }

  get size(): number {
    let size = 0;
    for (const keys of this.nodes.values()) size += keys.size;
    return size;
  }

  /** Forgets nodes that the present answer did not touch, once there are so many times the nodes that the last sweep left. */
  sweep(growth = 1.5): void {
    if (this.size < this.liveAfterSweep * growth) return;
    for (const keys of this.nodes.values()) {
      for (const [key, node] of keys) {
        if (node.verifiedAt === this.revision && !node.isTouched) continue;
        for (const seen of node.reads) seen.node.readers.delete(node);
        keys.delete(key);
      }
    }
    this.liveAfterSweep = this.size;
  }

  private node(stage: Stage<unknown>, key: string): Node {
    let keys = this.nodes.get(stage.id);
    if (!keys) {
      keys = new Map();
      this.nodes.set(stage.id, keys);
    }
    let node = keys.get(key);
    if (!node) {
      node = {
        stage,
        key,
        value: undefined,
        reads: [],
        readers: new Set(),
        verifiedAt: 0,
        isTouched: false,
        computing: false,
        readBy: null,
      };
      keys.set(key, node);
    }
    return node;
  }

  private verify(node: Node): void {
    if (node.verifiedAt === this.revision && !node.isTouched) return;
    if ('select' in node.stage) this.keep(node, node.stage.select(this.source as never, node.key), node.reads);
    else if (!this.stands(node)) this.compute(node, node.stage);
  }

  private readsHold(node: Node): boolean {
    for (const seen of node.reads) {
      this.verify(seen.node);
      const { value, stage } = seen.node;
      if (seen.value === value) continue;
      if (!stage.same(seen.value, value)) return false;
      seen.value = value;
    }
    return true;
  }

  private compute(node: Node, stage: ComputedStage<unknown>): void {
    if (node.computing) throw new Error(`Store: ${stage.id} of "${node.key}" reads itself`);
    node.computing = true;
    const reads: Seen[] = [];
    try {
      const value = stage.compute(node.key, this.recorder(reads, {}));
      this.counts.set(stage.id, (this.counts.get(stage.id) ?? 0) + 1);
      this.keep(node, value, reads);
    } finally {
      node.computing = false;
    }
  }

  private keep(node: Node, value: unknown, reads: readonly Seen[]): void {
    if (node.verifiedAt === 0 || !node.stage.same(node.value, value)) node.value = value;
    if (reads !== node.reads) {
      // A computation mostly reads what it read before: then the readers stand as they are.
      if (!readsTheSame(node.reads, reads)) {
        for (const seen of node.reads) seen.node.readers.delete(node);
        for (const seen of reads) seen.node.readers.add(node);
      }
      node.reads = reads;
    }
    this.settle(node);
  }

  private settle(node: Node): void {
    node.verifiedAt = this.revision;
    node.isTouched = false;
  }

  private recorder(reads: Seen[], token: object): Read {
    return <T>(stage: Stage<T>, key = ''): T => {
      const node = this.node(stage, key);
      this.verify(node);
      if (node.readBy !== token) {
        node.readBy = token;
        reads.push({ node, value: node.value });
      }
      return node.value as T;
    };
  }
}

const readsTheSame = (a: readonly Seen[], b: readonly Seen[]): boolean =>
  a.length === b.length && a.every(({ node }, index) => node === b[index]?.node);

/** Marks a node and all that rests on it. */
function touch(node: Node): void {
  if (node.isTouched) return;
  node.isTouched = true;
  for (const reader of node.readers) touch(reader);
}
