import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/model/errors.ts';
import { WriteRow } from '../../../electron/ipc/write-row.ts';

const FULL = new AppError('disk-full', 'The disk is full.');
const GONE = new AppError('no-such-record', 'This clip is not in the book.');

/** A row of letters; those with the same letter go on with each other: "a1" and "a2" are "a2". */
function newRow() {
  const written: string[] = [];
  let trouble: unknown = null;
  const row = new WriteRow<string>({
    carryOut: async (write) => {
      await Promise.resolve();
      if (write.startsWith('x')) throw GONE;
      if (trouble !== null) throw trouble;
      written.push(write);
    },
    join: (first, next) => (first[0] === next[0] ? next : null),
  });
  return { row, written, setTrouble: (next: unknown) => (trouble = next) };
}

/** What a put came to: "written", or the trouble's code. */
const outcomeOf = (put: Promise<unknown>): Promise<string> =>
  put.then(
    () => 'written',
    (error: unknown) => (error instanceof AppError ? error.code : String(error)),
  );

describe('a row of writes', () => {
  it('is written in the order it came', async () => {
    const { row, written } = newRow();
    await Promise.all(['a', 'b', 'c', 'd'].map((write) => row.put(write)));
    expect(written).toEqual(['a', 'b', 'c', 'd']);
    expect(row.waiting).toEqual([]);
  });

  it('joins what goes on with the last that waits, and never across another', async () => {
    const { row, written } = newRow();
    await Promise.all(['a1', 'a2', 'b1', 'a3', 'a4', 'a5'].map((write) => row.put(write)));
    expect(written).toEqual(['a2', 'b1', 'a5']);
  });

  it('joins nothing to a write that is being carried out', async () => {
    let release = (): void => undefined;
    const begun: string[] = [];
    const row = new WriteRow<string>({
      carryOut: (write) => {
        begun.push(write);
        return begun.length === 1 ? new Promise<void>((resolve) => (release = resolve)) : undefined;
      },
      join: (_first, next) => next,
    });
    const first = row.put('a1');
    await expect.poll(() => begun).toEqual(['a1']);
    const second = row.put('a2');
    release();
    await Promise.all([first, second]);
    expect(begun).toEqual(['a1', 'a2']);
  });

  it('keeps what cannot be written, tells all who wait, and writes it first once it can be', async () => {
    const { row, written, setTrouble } = newRow();
    setTrouble(FULL);
    const outcomes = await Promise.all(['a', 'b'].map((write) => outcomeOf(row.put(write))));
    expect([outcomes, row.waiting, written]).toEqual([['disk-full', 'disk-full'], ['a', 'b'], []]);
    expect(await outcomeOf(row.put('c'))).toBe('disk-full');
    setTrouble(null);
    expect(await outcomeOf(row.put('d'))).toBe('written');
    expect([written, row.waiting]).toEqual([['a', 'b', 'c', 'd'], []]);
  });

  it('tries again when asked, and says what still keeps it from being written', async () => {
    const { row, written, setTrouble } = newRow();
    setTrouble(FULL);
    await outcomeOf(row.put('a'));
    expect(await row.retry()).toBe(FULL);
    setTrouble(null);
    expect([await row.retry(), written]).toEqual([null, ['a']]);
  });

  it('lets go of what is refused alone: what came after it is written', async () => {
    const { row, written } = newRow();
    const outcomes = await Promise.all(['a', 'x', 'b'].map((write) => outcomeOf(row.put(write))));
    expect([outcomes, written]).toEqual([
      ['written', 'no-such-record', 'written'],
      ['a', 'b'],
    ]);
  });

  it('says of a refusal that nobody waits to hear of any more', async () => {
    let refuses = false;
    const row = new WriteRow<string>({
      carryOut: () => {
        throw refuses ? GONE : FULL;
      },
      join: () => null,
    });
    await outcomeOf(row.put('a'));
    refuses = true;
    expect([await row.retry(), row.waiting]).toEqual([GONE, []]);
  });

  it('says of such a refusal to whoever is written after it, once', async () => {
    let refuses = false;
    const row = new WriteRow<string>({
      carryOut: (write) => {
        if (write === 'a') throw refuses ? GONE : FULL;
      },
      join: () => null,
    });
    await outcomeOf(row.put('a'));
    refuses = true;
    expect(await Promise.all([row.put('b'), row.put('c'), row.retry()])).toEqual([GONE, null, null]);
  });

  it('keeps such a refusal for the next, where what came after it is not written either', async () => {
    let refuses = false;
    let full = false;
    const row = new WriteRow<string>({
      carryOut: (write) => {
        if (full && write !== 'a') throw FULL;
        if (write === 'a') throw refuses ? GONE : FULL;
      },
      join: () => null,
    });
    await outcomeOf(row.put('a'));
    [refuses, full] = [true, true];
    expect(await outcomeOf(row.put('b'))).toBe('disk-full');
    full = false;
    expect([await row.put('c'), row.waiting]).toEqual([GONE, []]);
  });

  it('given up, is empty, and nobody waits for it any more', async () => {
    const { row, setTrouble } = newRow();
    setTrouble(FULL);
    await outcomeOf(row.put('a'));
    const last = row.put('b');
    row.drop();
    expect([await outcomeOf(last), row.waiting]).toEqual(['written', []]);
  });
});
