/** A name as part of a file's name: signs that a file system may refuse become spaces. May be empty. */
export function plainFileName(name: string): string {
  return name.replaceAll(/[^\p{L}\p{N}-]+/gu, ' ').trim();
}
