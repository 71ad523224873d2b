/**
 * Keyed stages with recorded reads and equality cut-off. A node is one stage at one key. To bring a node up to date its
 * reads are verified first, in the order in which they were made; only when one of them changed is the node computed
 * again, and when the new value is the same as the old one, the old one is kept, so that what reads it stays untouched.
 */
export interface ComputedStage<T> {
  readonly id: string;
  compute(key: string, read: Read): T;
  same(a: T, b: T): boolean;
}

/** A stage that looks at what the store was given, and at nothing else. */
export interface InputStage<S, T> {
  readonly id: string;
  select(source: S, key: string): T;
  same(a: T, b: T): boolean;
}

export type Stage<T> = ComputedStage<T> | InputStage<never, T>;
export type Read = <T>(stage: Stage<T>, key?: string) => T;

interface Node {
  readonly stage: Stage<unknown>;
  readonly key: string;
  value: unknown;
  reads: Node[];
  /** Revision in which the value last became another one. */
  changedAt: number;
  /** Revision in which the value was last found to hold; 0: never computed. */
  verifiedAt: number;
  computing: boolean;
  /** The computation that read this node last, to record a read once. */
  readBy: object | null;
}

/** A computation that is spread over several steps: its reads are recorded, its value is handed over at the end. */
export interface Pending {
  readonly read: Read;
  readonly startedAt: number;
  readonly reads: readonly unknown[];
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

  readonly read: Read = <T>(stage: Stage<T>, key = ''): T => {
    const node = this.node(stage, key);
    this.verify(node);
    return node.value as T;
  };

  /** Whether the value at hand still holds; brings what it reads up to date, but does not compute the node itself. */
  holds<T>(stage: Stage<T>, key = ''): boolean {
    const node = this.node(stage, key);
    return node.verifiedAt === this.revision || (node.verifiedAt > 0 && this.readsHold(node));
  }

  /** The last computed value, whether it still holds or not; undefined when there is none. */
  last<T>(stage: Stage<T>, key = ''): T | undefined {
    const node = this.nodes.get(stage.id)?.get(key);
    return node && node.verifiedAt > 0 ? (node.value as T) : undefined;
  }

  begin(): Pending {
    const reads: Node[] = [];
    const token = {};
    return { read: this.recorder(reads, token), startedAt: this.revision, reads };
  }

  /** Hands over the value of a pending computation. False, and nothing kept, when something it read has changed since. */
  commit<T>(stage: Stage<T>, key: string, pending: Pending, value: T): boolean {
    const reads = pending.reads as readonly Node[];
    for (const read of reads) {
      this.verify(read);
      if (read.changedAt > pending.startedAt) return false;
    }
    this.keep(this.node(stage, key), value, [...reads]);
    return true;
  }

  /** Whether what a pending computation has read so far still holds. */
  stillHolds(pending: Pending): boolean {
    for (const read of pending.reads as readonly Node[]) {
      this.verify(read);
      if (read.changedAt > pending.startedAt) return false;
    }
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

  /** Forgets nodes that the present answer did not touch, once they have come to outnumber half of those that it did. */
  sweep(): void {
    if (this.size < this.liveAfterSweep * 1.5) return;
    for (const keys of this.nodes.values()) {
      for (const [key, node] of keys) if (node.verifiedAt !== this.revision) keys.delete(key);
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
        changedAt: 0,
        verifiedAt: 0,
        computing: false,
        readBy: null,
      };
      keys.set(key, node);
    }
    return node;
  }

  private verify(node: Node): void {
    if (node.verifiedAt === this.revision) return;
    if ('select' in node.stage) {
      this.keep(node, node.stage.select(this.source as never, node.key), node.reads);
      return;
    }
    if (node.verifiedAt > 0 && this.readsHold(node)) {
      node.verifiedAt = this.revision;
      return;
    }
    this.compute(node, node.stage);
  }

  private readsHold(node: Node): boolean {
    if ('select' in node.stage) return false;
    for (const read of node.reads) {
      this.verify(read);
      if (read.changedAt > node.verifiedAt) return false;
    }
    return true;
  }

  private compute(node: Node, stage: ComputedStage<unknown>): void {
    if (node.computing) throw new Error(`Store: ${stage.id} of "${node.key}" reads itself`);
    node.computing = true;
    const reads: Node[] = [];
    try {
      const value = stage.compute(node.key, this.recorder(reads, {}));
      this.counts.set(stage.id, (this.counts.get(stage.id) ?? 0) + 1);
      this.keep(node, value, reads);
    } finally {
      node.computing = false;
    }
  }

  private keep(node: Node, value: unknown, reads: Node[]): void {
    if (node.verifiedAt === 0 || !node.stage.same(node.value, value)) {
      node.value = value;
      node.changedAt = this.revision;
    }
    node.reads = reads;
    node.verifiedAt = this.revision;
  }

  private recorder(reads: Node[], token: object): Read {
    return <T>(stage: Stage<T>, key = ''): T => {
      const node = this.node(stage, key);
      this.verify(node);
      if (node.readBy !== token) {
        node.readBy = token;
        reads.push(node);
      }
      return node.value as T;
    };
  }
}
