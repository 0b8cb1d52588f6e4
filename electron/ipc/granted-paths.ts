import { resolve } from 'node:path';

/**
 * Which paths the coach has really pointed at: files picked or dropped, folders picked or saved to. A path that merely
 * arrives from the window is a claim; it is good only if it stands here. Lasts as long as the program runs.
 */
export class GrantedPaths {
  readonly #files = new Set<string>();
  readonly #folders = new Set<string>();

  grantFile(path: string): void {
    this.#files.add(resolve(path));
  }

  grantFolder(path: string): void {
    this.#folders.add(resolve(path));
  }

  hasFile(path: string): boolean {
    return this.#files.has(resolve(path));
  }

  /** True for the folder itself, not for those within it. */
  hasFolder(path: string): boolean {
    return this.#folders.has(resolve(path));
  }
}
