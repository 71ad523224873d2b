import { createContext } from 'react';

/** Words that the rows of a table must hold, and how many do: the drawer asks, its tables answer. */
export const RowFilter = createContext<{
  readonly words: string;
  counted(shown: number, all: number): void;
}>({ words: '', counted: () => {} });

/** Whether the texts of a row hold every word, in whatever order and case. */
export function holdsWords(words: string, texts: readonly string[]): boolean {
  const text = texts.join(' ').toLowerCase();
  return words
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
