const WORDS: Readonly<Record<string, string>> = {
  QuotaExceededError: 'this browser has no room left',
  NotFoundError: 'it is no longer there',
  NotAllowedError: 'this browser was not allowed to',
  SecurityError: 'this browser was not allowed to',
  NoModificationAllowedError: 'another program or window holds it',
  InvalidModificationError: 'a folder stands in its place',
  NotReadableError: 'it can’t be read now',
  UnknownError: 'the disk reports a fault',
};

/** Why the browser refused, in words: by the name of the exception, and by what it says where the name is a new one. */
export function whyRefused(error: unknown): string {
  const known = error instanceof Error ? WORDS[error.name] : undefined;
  return known ?? (error instanceof Error ? error.message : String(error));
}
