export interface Count {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
}
interface VitestReport {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly numPendingTests: number;
  readonly numTodoTests: number;
  readonly testResults: readonly {
    readonly status: string;
    readonly assertionResults: readonly { readonly status: string }[];
  }[];
}
export function runVitest(words: readonly string[], env?: Readonly<Record<string, string>>): Count;
export function countOf(report: VitestReport | null, succeeded: boolean): Count;
export function closingLine(count: { readonly passed: number; readonly failed: number }): void;
