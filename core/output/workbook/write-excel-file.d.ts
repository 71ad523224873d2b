/** What is used of write-excel-file. Its own types know Blob and streams, which the core does not. */
declare module 'write-excel-file/universal' {
  export interface CellObject {
    readonly value: string | number;
    readonly type: StringConstructor | NumberConstructor;
    readonly format?: string;
    readonly fontWeight?: 'bold';
    readonly wrap?: boolean;
    readonly alignVertical?: 'top';
    readonly align?: 'left' | 'right';
  }
  export default function writeExcelFile(
    sheets: readonly {
      readonly data: readonly (readonly (CellObject | null)[])[];
      readonly sheet: string;
      readonly columns: readonly { readonly width: number }[];
      readonly stickyRowsCount: number;
    }[],
  ): { toBlob(): Promise<{ arrayBuffer(): Promise<ArrayBuffer> }> };
}
