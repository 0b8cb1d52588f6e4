import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, vi } from 'vitest';
import { clearEarlier, madeOnce } from '../support/made-once.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const LIMIT = { timeout: 20_000 };
const write = async (work: string): Promise<void> => writeFileSync(join(work, 'what'), 'whole');

/** A process that begins to make the folder and never gets to its end. */
async function beginElsewhere(path: string) {
  const module = join(import.meta.dirname, '..', 'support', 'made-once.ts');
  const text = `const { madeOnce } = await import(${JSON.stringify(module)});
    await madeOnce(${JSON.stringify(path)}, () => { console.log('begun'); return new Promise(() => setInterval(() => {}, 1e6)); });`;
  const child = spawn(process.execPath, ['--input-type=module', '-e', text], { stdio: ['ignore', 'pipe', 'inherit'] });
  await once(child.stdout, 'data');
  return child;
}

it('what many want at the same time is made once, and each finds it whole', async () => {
  const path = join(temporaryFolder(), 'books', 'a');
  const make = vi.fn(async (work: string) => {
    await new Promise((resolve) => setTimeout(resolve, 50));
    await write(work);
  });
  await Promise.all([1, 2, 3].map(() => madeOnce(path, make)));
  await madeOnce(path, make);
  expect(make).toHaveBeenCalledTimes(1);
  expect(readFileSync(join(path, 'what'), 'utf8')).toBe('whole');
  expect(readdirSync(join(path, '..'))).toEqual(['a']);
});

it('a maker that fails leaves nothing, and the next one makes it', async () => {
  const path = join(temporaryFolder(), 'a');
  await expect(madeOnce(path, () => Promise.reject(new Error('no room')))).rejects.toThrow('no room');
  expect(readdirSync(join(path, '..'))).toEqual([]);
  await madeOnce(path, write);
  expect(existsSync(join(path, 'what'))).toBe(true);
});

it(
  'a maker that is there is waited for; one that was ended on the way is not, and its half folder goes',
  LIMIT,
  async () => {
    const path = join(temporaryFolder(), 'a');
    const child = await beginElsewhere(path);
    writeFileSync(join(`${path}.making`, 'half'), 'x');
    const make = vi.fn(write);
    const made = madeOnce(path, make);
    await new Promise((resolve) => setTimeout(resolve, 1200));
    expect(make).not.toHaveBeenCalled();
    // Others that clear away leave it alone as well.
    await clearEarlier(join(path, '..', 'b'));
    expect(existsSync(`${path}.making`)).toBe(true);
    child.kill('SIGKILL');
    await once(child, 'exit');
    const ended = performance.now();
    await made;
    expect(performance.now() - ended).toBeLessThan(5000);
    expect(readdirSync(path)).toEqual(['what']);
  },
);

it('what was made under other names, and what nobody makes any more, is cleared away', async () => {
  const folder = temporaryFolder();
  for (const name of ['old', 'dead.making', 'mine', 'mine.making']) mkdirSync(join(folder, name));
  writeFileSync(join(folder, 'dead.lock'), '999999999 x');
  await clearEarlier(join(folder, 'mine'));
  expect(readdirSync(folder).toSorted()).toEqual(['mine', 'mine.making']);
});
