import type { BookDatabase } from './database.ts';

/** Parts of clips that are being taken out of their file by this program, by clip; each resolves with the id it has then. */
const arrivals = new WeakMap<BookDatabase, Map<string, Promise<string>>>();

/** Whoever needs the file of this clip waits for `taken`, which may fail. */
export function noteArrival(database: BookDatabase, clipId: string, taken: Promise<string>): void {
  const known = arrivals.get(database) ?? new Map<string, Promise<string>>();
  arrivals.set(database, known.set(clipId, taken));
  const forget = (): void => {
    if (known.get(clipId) === taken) known.delete(clipId);
  };
  taken.then(forget, forget);
}

/** Resolves once the part of a clip is taken, with the clip's id then. Null where nobody takes it now, or it could not be. */
export async function arrivalOf(database: BookDatabase, clipId: string): Promise<string | null> {
  return (
    (await arrivals
      .get(database)
      ?.get(clipId)
      ?.catch(() => null)) ?? null
  );
}
