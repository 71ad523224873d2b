import { create } from 'zustand';

/** A question that the window asks, answered by the key of a button; Escape answers `cancel`. */
export interface Question {
  readonly title: string;
  readonly text: string;
  readonly choices: readonly { readonly key: string; readonly words: string; readonly main?: boolean }[];
}

export interface DialogState {
  readonly question: Question | null;
  readonly answer: ((key: string) => void) | null;
  readonly help: boolean;
  readonly samples: boolean;
  /** Unsaved work from before, earlier versions of the file, the steps of undo; data, catalogue, data sheet, a whole set. */
  readonly shown: 'recovery' | 'versions' | 'steps' | 'allData' | 'catalogue' | 'dataSheet' | 'wholeSet' | null;
  show(dialog: DialogState['shown']): void;
  setHelp(open: boolean): void;
  setSamples(open: boolean): void;
}

export const useDialogs = create<DialogState>()((set) => ({
  question: null,
  answer: null,
  help: false,
  samples: false,
  shown: null,
  show: (shown) => set({ shown }),
  setHelp: (help) => set({ help }),
  setSamples: (samples) => set({ samples }),
}));

export function ask(question: Question): Promise<string> {
  useDialogs.getState().answer?.('cancel');
  return new Promise((resolve) => {
    const answer = (key: string): void => {
      useDialogs.setState({ question: null, answer: null });
      resolve(key);
    };
    useDialogs.setState({ question, answer });
  });
}
