/** One thing that can be done: menu, find field, keyboard map and keys all read the same list of these. */
export interface Command {
  readonly id: string;
  readonly words: string;
  /** As the keyboard map shows it. */
  readonly keys?: string;
  run(): void;
}
