import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { holdLock } from '../../../electron/bare-machine/hold-lock.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';

test('two that want the same lock take turns, and the second is told that it waits', async () => {
  const name = temporaryFolder();
  const story: string[] = [];
  const first = holdLock(
    name,
    () => story.push('first waits'),
    async () => {
      story.push('first in');
      await wait(100);
      story.push('first out');
      return 1;
    },
  );
  const second = holdLock(
    name,
    () => story.push('second waits'),
    async () => {
      story.push('second in');
      return 2;
    },
  );
  expect(await Promise.all([first, second])).toEqual([1, 2]);
  expect(story.filter((line) => line !== 'second waits')).toEqual(['first in', 'first out', 'second in']);
  expect(story.filter((line) => line.endsWith('waits'))).toEqual(['second waits']);
});

test('work that throws gives the lock back', async () => {
  const name = temporaryFolder();
  const failing = holdLock(
    name,
    () => undefined,
    () => Promise.reject(new Error('no')),
  );
  await expect(failing).rejects.toThrow('no');
  expect(
    await holdLock(
      name,
      () => undefined,
      async () => 'in',
    ),
  ).toBe('in');
});

test('the lock of a killed process is free again', async () => {
  const name = temporaryFolder();
  const module = join(import.meta.dirname, '..', '..', '..', 'electron', 'bare-machine', 'hold-lock.ts');
  const script = `import { holdLock } from ${JSON.stringify(module)};
    await holdLock(${JSON.stringify(name)}, () => {}, async () => { console.log('held'); await new Promise((done) => setTimeout(done, 60000)); });`;
  const holder = spawn(process.execPath, ['--input-type=module', '-e', script], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  await once(holder.stdout, 'data');
  let waited = false;
  const ours = holdLock(
    name,
    () => ((waited = true), holder.kill('SIGKILL')),
    async () => 'in',
  );
  expect(await ours).toBe('in');
  expect(waited).toBe(true);
});
