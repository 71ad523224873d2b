/** Answers kept per record and view, as long as the record lives. */
export class PerView<K extends object, V> {
  private readonly known = new WeakMap<K, Map<string, V>>();

  get(record: K, view: string): V | undefined {
    return this.known.get(record)?.get(view);
  }

  set(record: K, view: string, value: V): V {
    const views = this.known.get(record) ?? new Map<string, V>();
    // Sections at ever new places would pile up; the few in use are cheap to make again.
    if (views.size > 12) views.clear();
    views.set(view, value);
    this.known.set(record, views);
    return value;
  }
}
