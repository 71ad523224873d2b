export const ROOT: string;
export function inProject(...parts: string[]): string;
