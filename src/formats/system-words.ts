const WORDS: Readonly<Record<string, string>> = {
  ENOENT: 'no such file or folder',
  ENOTDIR: 'a part of the path that should be a folder is a file',
  EISDIR: 'it is a folder',
  EEXIST: 'something of that name is there already',
  EACCES: 'no permission',
  EPERM: 'no permission',
  EROFS: 'the disk is read-only',
  ENOSPC: 'no room on the disk',
  EDQUOT: 'your share of the disk is used up',
  EFBIG: 'the file would be too large',
  EIO: 'the disk failed',
  EBUSY: 'another program holds it',
  EMFILE: 'too many files are open',
  ENFILE: 'too many files are open',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'its links go round in a circle',
};

/** What the operating system refused, in words; its own code where there are none. */
export function systemWords(error: unknown): string {
  const { code } = error as { readonly code?: string };
  return (code !== undefined && Object.hasOwn(WORDS, code) ? WORDS[code] : code) ?? String(error);
}
