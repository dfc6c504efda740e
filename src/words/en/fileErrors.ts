/** Why the system did not read or write a file, in words. */

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "there is no such folder",
  ENOTDIR: "there is no such folder",
  EISDIR: "it is a folder",
  EACCES: "permission denied",
  EPERM: "permission denied",
  EROFS: "the disk is read-only",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk is full",
  EMFILE: "too many files are open",
  ENAMETOOLONG: "the name is too long",
};

/** Code of a system error ("ENOENT"), or an empty text. */
export function systemCode(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : "";
}

/** "permission denied"; the system's own code where there are no words for it. */
export function reasonOf(error: unknown): string {
  const code = systemCode(error);
  return reasons[code] ?? (code === "" ? String(error) : `the system says ${code}`);
}
