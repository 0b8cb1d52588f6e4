import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { Outgoing } from '../../../electron/ipc/outgoing.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';

test('of what is dragged out the latest lies there alone, whole, until it is cleared; also where two come at once', async () => {
  const folder = join(temporaryFolder(), 'going-out');
  const outgoing = new Outgoing(folder);
  const bytes = Uint8Array.from([1, 2, 3]);
  await Promise.all([outgoing.put('one.jpg', Uint8Array.of(9)), outgoing.put('two.jpg', bytes)]);
  expect(readdirSync(folder)).toEqual(['two.jpg']);
  expect(Uint8Array.from(readFileSync(join(folder, 'two.jpg')))).toEqual(bytes);
  const third = outgoing.put('three.jpg', bytes);
  await outgoing.clear();
  expect([await third, existsSync(folder)]).toEqual([join(folder, 'three.jpg'), false]);
  // Another program begins where a kill left something.
  await new Outgoing(folder).put('left.jpg', bytes);
  await new Outgoing(folder).clear();
  expect(existsSync(folder)).toBe(false);
});
