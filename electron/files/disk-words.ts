/** The system's word for what went wrong: ENOSPC, EACCES ... */
export const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : 'UNKNOWN';

const WORDS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is used up',
  EFBIG: 'the disk takes no file of that size',
  ENOENT: 'its folder is no longer there',
  ENOTDIR: 'its folder is no longer there',
  EROFS: 'the disk can only be read',
  EROFILE: 'the file is marked read-only',
  EACCES: 'you may not write there',
  EPERM: 'you may not write there',
  EBUSY: 'another program holds it',
  ETXTBSY: 'another program holds it',
  EISDIR: 'a folder stands in its place',
  ELOOP: 'its link leads in a circle',
  ENAMETOOLONG: 'its name is too long for this disk',
  EMFILE: 'too many files are open',
  ENFILE: 'too many files are open',
  EIO: 'the disk reports a fault',
  ENODEV: 'the disk is no longer there',
  ENXIO: 'the disk is no longer there',
  ESTALE: 'the network disk is no longer there',
  ETIMEDOUT: 'the network disk does not answer',
};

/** Why writing failed, in words and with the system's code: `the disk is full (ENOSPC)`. */
export function whyNotWritten(error: unknown): string {
  const code = codeOf(error);
  return `${WORDS[code] ?? 'the system refuses it'} (${code})`;
}

/** Why reading failed. */
export function whyNotRead(error: unknown): string {
  const code = codeOf(error);
  if (code === 'ENOENT' || code === 'ENOTDIR') return `it is no longer there (${code})`;
  if (code === 'EACCES' || code === 'EPERM') return `you may not read it (${code})`;
  return `${WORDS[code] ?? 'the system refuses it'} (${code})`;
}
