export interface MissingTool {
  readonly tool: string;
  readonly debian: string;
  readonly unrun: string;
}
export function chromiumPath(): string | null;
export function pythonWithOpenpyxl(): string | null;
export function missingTools(): readonly MissingTool[];
