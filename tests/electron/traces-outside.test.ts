import { expect, test } from 'vitest';
import { clearTracesOutside } from '../../electron/traces-outside.ts';
import type { TracePlaces } from '../../electron/traces-outside.ts';
import { addSample } from '../core/book/sample.ts';
import { newBook } from '../core/book/with-book.ts';

/** Work that goes on until it is let go, as often as it is begun. */
function held() {
  const waiting: (() => void)[] = [];
  return {
    begin: () => new Promise<void>((resolve) => void waiting.push(resolve)),
    letGo: () => {
      for (const resolve of waiting.splice(0)) resolve();
      return new Promise<void>((resolve) => setTimeout(resolve));
    },
  };
}

test('what is removed while an earlier removal is being cleared is cleared as well, and noted until then', async () => {
  const book = newBook();
  const [one, other] = [addSample(book, 'Robin').student, addSample(book, 'Wren').student];
  const [copies, stores] = [held(), held()];
  let cleared = 0;
  const places: TracePlaces = {
    book,
    outgoing: { clear: async () => undefined },
    frames: { keepOnly: copies.begin },
    session: {
      clearCache: async () => void (cleared += 1),
      clearCodeCaches: async () => undefined,
      clearStorageData: stores.begin,
    },
    log: {
      clear: () => undefined,
      write: (where, cause) => {
        throw new Error(where, { cause });
      },
    },
  };
  book.removeStudent(one.id);
  const first = clearTracesOutside(places);
  await copies.letGo();
  expect(cleared).toBe(1);
  book.removeStudent(other.id);
  const second = clearTracesOutside(places);
  await stores.letGo();
  await first;
  expect(book.hasTracesOutside()).toBe(true);
  await copies.letGo();
  await stores.letGo();
  await second;
  expect([cleared, book.hasTracesOutside()]).toEqual([2, false]);
});
