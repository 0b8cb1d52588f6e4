/** Counts what changes the book, so that an answer that was read before a change is not taken for what stands after it. */

let changes = 0;

/** Something in the book is another than it was: by hand, or by the program. */
export function bookChanged(): void {
  changes += 1;
}

/** What `read` answers with, read anew where the book changed meanwhile. `settle` comes before each reading. */
export async function readUnchanged<Read>(settle: () => Promise<void>, read: () => Promise<Read>): Promise<Read> {
  for (;;) {
    await settle();
    const before = changes;
    const found = await read();
    if (changes === before) return found;
  }
}
