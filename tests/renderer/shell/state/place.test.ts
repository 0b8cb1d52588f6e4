import { describe, expect, test } from 'vitest';
import { bookChanged, readUnchanged } from '../../../../renderer/shell/state/book-changes.ts';
import { createPlace } from '../../../../renderer/shell/state/place.ts';

/** An answer that comes when it is told to. */
function later<Answer>() {
  let come: (answer: Answer) => void = () => undefined;
  let fail: (error: unknown) => void = () => undefined;
  const answer = new Promise<Answer>((resolve, reject) => {
    come = resolve;
    fail = reject;
  });
  return { ask: () => answer, come, fail };
}

describe('a place on the screen', () => {
  test('shows what was asked for last, in whichever order the answers come', async () => {
    const place = createPlace();
    const shown: string[] = [];
    const put = (what: string): void => void shown.push(what);
    const [first, second] = [later<string>(), later<string>()];
    const [one, other] = [place.fill(first.ask, put), place.fill(second.ask, put)];
    second.come('second');
    first.come('first');
    expect([await one, await other, shown]).toEqual([false, true, ['second']]);
  });

  test('that was left, or changed by hand, takes no answer from before, nor its error', async () => {
    const place = createPlace();
    const [first, second] = [later<string>(), later<string>()];
    const shown: string[] = [];
    const one = place.fill(first.ask, (what) => void shown.push(what));
    const other = place.fill(second.ask, (what) => void shown.push(what));
    place.leave();
    first.fail(new Error('first'));
    second.come('second');
    expect([await one, await other, shown]).toEqual([false, false, []]);
  });

  test('tells the error of what is wanted', async () => {
    const place = createPlace();
    await expect(
      place.fill(
        () => Promise.reject(new Error('gone')),
        () => undefined,
      ),
    ).rejects.toThrow('gone');
  });

  test('holds what stands there until something else comes to stand there: being asked for is not enough', async () => {
    const place = createPlace();
    const next = later<string>();
    const holds = place.holds();
    const filled = place.fill(next.ask, () => undefined);
    expect(holds()).toBe(true);
    next.come('next');
    await filled;
    expect(holds()).toBe(false);
    const after = place.holds();
    place.leave();
    expect(after()).toBe(false);
  });
});

test('what was read before a change of the book is read anew', async () => {
  const answers = ['before', 'after'];
  let settled = 0;
  const found = await readUnchanged(
    async () => void (settled += 1),
    async () => {
      const answer = answers.shift();
      if (answer === 'before') bookChanged();
      return answer;
    },
  );
  expect([found, settled]).toEqual(['after', 2]);
});
