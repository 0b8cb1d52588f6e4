import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { clipFormat, isPlaylist, readClipFile } from '../../../../core/video/index/clip-format.ts';
import { temporaryFolder } from '../../../support/temporary-folder.ts';
import { expectRefused } from '../../../support/trouble.ts';

const bytes = (text: string, length = 1024): Uint8Array => {
  const head = new Uint8Array(length);
  head.set(Buffer.from(text, 'latin1').subarray(0, length));
  return head;
};
const transport = (first: number, step: number): Uint8Array => {
  const head = new Uint8Array(1024);
  for (let at = first; at < head.length; at += step) head[at] = 0x47;
  return head;
};

it('is told by content', () => {
  expect(clipFormat(bytes('\0\0\0\x18ftypisom'))).toBe('mov');
  expect(clipFormat(bytes('\0\0\0\x08wide\0\0\0\0mdat'))).toBe('mov');
  expect(clipFormat(bytes('\x1aE\xdf\xa3'))).toBe('matroska');
  expect(clipFormat(bytes('RIFF....AVI LIST'))).toBe('avi');
  expect(clipFormat(transport(0, 188))).toBe('mpegts');
  expect(clipFormat(transport(4, 192))).toBe('mpegts');
  expect(clipFormat(bytes('\0\0\x01\xba'))).toBe('mpeg');
});

it('is none for pictures, sound, text and nothing', () => {
  for (const text of [
    '',
    'GIF89a',
    '\xff\xd8\xff\xe0',
    '\x89PNG\r\n',
    'RIFF....WAVEfmt ',
    '#EXTM3U\n',
    'ffconcat version 1.0',
  ])
    expect(clipFormat(bytes(text))).toBeNull();
  expect(clipFormat(new Uint8Array(0))).toBeNull();
});

it('knows lists of other files', () => {
  for (const text of [
    '#EXTM3U\nfile.ts',
    '\xef\xbb\xbf#EXTM3U',
    'ffconcat version 1.0\n',
    '<?xml version="1.0"?>\n<MPD xmlns',
    '[playlist]',
  ])
    expect(isPlaylist(bytes(text))).toBe(true);
  expect(isPlaylist(bytes('a note about #EXTM3U'))).toBe(false);
});

it('refuses what cannot be opened, each with its own sentence', async () => {
  const folder = temporaryFolder();
  const file = (name: string, content: string): string => {
    writeFileSync(join(folder, name), content);
    return join(folder, name);
  };
  await expectRefused(readClipFile(join(folder, 'gone.mp4')), 'file-not-found');
  await expectRefused(readClipFile(folder), 'file-unreadable', /folder/);
  await expectRefused(readClipFile(file('empty.mp4', '')), 'file-empty');
  await expectRefused(readClipFile(file('note.mp4', 'Dear coach,')), 'not-a-clip');
  await expectRefused(readClipFile(file('list.mp4', '#EXTM3U\nother.mp4\n')), 'format-refused', /list/);
  if (process.platform === 'linux') await expectRefused(readClipFile('/dev/null'), 'file-unreadable', /device/);
});
