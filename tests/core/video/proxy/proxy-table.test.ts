import { describe, expect, it } from 'vitest';
import type { ClipIndex } from '../../../../core/time/clip-index.ts';
import {
  EMPTY_TABLE,
  completeLine,
  complainedLine,
  frameLine,
  parseTable,
  tableText,
  tableTitle,
} from '../../../../core/video/proxy/proxy-table.ts';
import type { TableFrame } from '../../../../core/video/proxy/proxy-table.ts';
import { seeded } from '../../../support/seeded.ts';

const CLIP: Pick<ClipIndex, 'width' | 'height' | 'turn' | 'mirrored' | 'timebase' | 'dynamicRange'> = {
  ...{ width: 1080, height: 1920, turn: 90, mirrored: false },
  ...{ timebase: { num: 1, den: 15360 }, dynamicRange: 'sdr' },
};
const TITLE = tableTitle(CLIP, 1280);
const FRAMES: readonly TableFrame[] = [
  { pts: -512, bytes: 1, crc: 0 },
  { pts: -511, bytes: 70_000, crc: 0xffffffff },
  { pts: 0, bytes: 12, crc: 0x0badcafe },
  { pts: 9_007_199_254_740_991, bytes: 3_999_999_999, crc: 5 },
];
const DATA_BYTES = FRAMES.reduce((sum, { bytes }) => sum + bytes, 0);
const LINES = [TITLE, ...FRAMES.map(frameLine), complainedLine(), completeLine(true)];
const { text: TEXT } = tableText(EMPTY_TABLE, LINES);

describe('the list of a proxy', () => {
  it('reads back as it was written', () => {
    expect(parseTable(TEXT, TITLE, DATA_BYTES)).toMatchObject({
      frames: FRAMES,
      dataBytes: DATA_BYTES,
      complained: true,
      complete: { errors: true },
      length: TEXT.length,
    });
    const { text } = tableText(EMPTY_TABLE, [TITLE, completeLine(false)]);
    const none = { frames: [], dataBytes: 0, complained: false, complete: { errors: false } };
    expect(parseTable(text, TITLE, 0)).toMatchObject(none);
  });

  it('can be continued anywhere, and is then the same text', () => {
    for (let cut = 0; cut <= LINES.length; cut += 1) {
      const first = tableText(EMPTY_TABLE, LINES.slice(0, cut));
      const table = parseTable(first.text, TITLE, DATA_BYTES);
      expect(table === null ? EMPTY_TABLE : { length: table.length, check: table.check }).toEqual(first.end);
      expect(first.text + tableText(first.end, LINES.slice(cut)).text).toBe(TEXT);
    }
  });

  it('holds as far as it was written whole', () => {
    for (let length = 0; length <= TEXT.length; length += 1) {
      const table = parseTable(TEXT.slice(0, length), TITLE, DATA_BYTES);
      const whole = TEXT.slice(0, length).split('\n').length - 1;
      if (whole === 0) expect(table).toBe(null);
      else expect(table?.frames).toEqual(FRAMES.slice(0, whole - 1));
    }
  });

  it('ends before a picture whose bytes are not all there', () => {
    let bytes = 0;
    for (const [place, frame] of FRAMES.entries()) {
      bytes += frame.bytes;
      expect(parseTable(TEXT, TITLE, bytes - 1)).toMatchObject({ frames: FRAMES.slice(0, place), complete: null });
    }
  });

  it.each([1, 2, 3])('never believes a line that was garbled (seed %i)', (seed) => {
    const random = seeded(seed);
    for (let round = 0; round < 3000; round += 1) {
      const characters = [...TEXT];
      for (let hits = 1 + Math.floor(random() * 3); hits > 0; hits -= 1) {
        const at = Math.floor(random() * characters.length);
        const [kind, byte] = [random(), String.fromCharCode(Math.floor(random() * 256))];
        if (kind < 0.7) characters[at] = byte;
        else if (kind < 0.85) characters.splice(at, 1);
        else characters.splice(at, 0, byte);
      }
      const garbled = characters.join('');
      const table = parseTable(garbled, TITLE, DATA_BYTES);
      const frames = table?.frames ?? [];
      expect(frames, `seed ${seed}, round ${round}`).toEqual(FRAMES.slice(0, frames.length));
      // It is only whole when nothing before its end was touched.
      if (garbled !== TEXT && (table?.complete ?? null) !== null) expect(garbled.startsWith(TEXT)).toBe(true);
    }
  });

  it('is of pictures in any order, and ends where a time comes again, though the line itself is sound', () => {
    const frames = [1, 3, 0, 3, 2].flatMap((place) => FRAMES[place] ?? []);
    const { text } = tableText(EMPTY_TABLE, [TITLE, ...frames.map(frameLine)]);
    expect(parseTable(text, TITLE, 2 * DATA_BYTES)?.frames).toEqual(frames.slice(0, 3));
  });

  it('is not taken for that of another clip or another size', () => {
    const others: Partial<typeof CLIP>[] = [
      { width: 1000 },
      { turn: 270 },
      { mirrored: true },
      { timebase: { num: 1, den: 600 } },
      { dynamicRange: 'hlg' },
    ];
    for (const other of others)
      expect(parseTable(TEXT, tableTitle({ ...CLIP, ...other }, 1280), DATA_BYTES)).toBe(null);
  });
});
