import { basename } from 'node:path';
import { expect, test } from 'vitest';
import { stillFileName, type StillName } from '../../../core/sheet/still-file-name.ts';

const NAME: StillName = {
  firstName: 'Mara',
  date: '2026-05-12',
  view: 'down-the-line',
  parts: ['address', 'top', 'impact'],
  format: 'png',
};

test('first name, date, view and checkpoints, in that order', () => {
  expect(stillFileName(NAME)).toBe('Mara-2026-05-12-down-the-line-address-top-impact.png');
  expect(stillFileName({ ...NAME, parts: [], format: 'jpeg' })).toBe('Mara-2026-05-12-down-the-line.jpg');
});

test('letters of any script stay, in one spelling', () => {
  expect(stillFileName({ ...NAME, firstName: 'Zoe\u0308 山田' })).toMatch(/^Zoë-山田-2026/);
});

test.each([
  '../../etc/passwd',
  '/root',
  'C:\\Windows',
  '..',
  '.',
  'a\0b',
  'x\ny',
  '"; rm -rf *',
  '-rf',
  'CON',
  '',
  '🏌️',
  '   ',
])('no name leads out of the folder: %j', (firstName) => {
  const name = stillFileName({ ...NAME, firstName });
  expect(basename(name)).toBe(name);
  expect(name).toMatch(/^[\p{L}\p{N}][\p{L}\p{M}\p{N}-]*\.png$/u);
  expect(name.endsWith('-2026-05-12-down-the-line-address-top-impact.png')).toBe(true);
});

test('a name is never longer than file systems take, and never cut inside a character', () => {
  const name = stillFileName({
    ...NAME,
    firstName: '山'.repeat(500),
    parts: Array.from({ length: 80 }, () => 'impact'),
  });
  expect(Buffer.byteLength(name)).toBeLessThanOrEqual(255);
  expect(name).not.toContain('\uFFFD');
});
