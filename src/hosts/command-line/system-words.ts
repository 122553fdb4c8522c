/** Failures of the machine in words. */
const known: Readonly<Record<string, string>> = {
  ENOSPC: "the disk is full",
  EDQUOT: "the disk space that this user may take is used up",
  EFBIG: "the file has become larger than the disk or this user may have it",
  EACCES: "this user may not",
  EPERM: "this user may not",
  EROFS: "the disk is read-only",
  ENOENT: "it is gone, or its folder is",
  EISDIR: "it is a folder",
  EIO: "the disk does not answer as it should",
  EMFILE: "too many files are open",
};

export function systemWords(thrown: unknown): string {
  if (!(thrown instanceof Error)) return String(thrown);
  return known[(thrown as NodeJS.ErrnoException).code ?? ""] ?? thrown.message;
}
