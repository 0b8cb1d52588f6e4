import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import type { DrawItem } from '../../../core/painting/draw-item.ts';
import { STILL_CAUTIONS } from '../../../core/report/captions.ts';
import { encodeStill, paintStill, writeStill, type StillOrder } from '../../../core/sheet/write-still.ts';
import { expectRefused } from '../../support/trouble.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { within } from '../../support/within.ts';
import { bay } from './pictures.ts';

const LIMIT = 1_000_000;
const LINE: DrawItem = {
  kind: 'segment',
  a: { x: 300, y: 100 },
  b: { x: 300, y: 900 },
  look: 'now',
  weight: 'line',
  ends: 'plain',
};

function order(path: string, changes: Partial<StillOrder> & { noise?: number; panels?: number } = {}): StillOrder {
  const { noise = 0, panels = 2, ...others } = changes;
  const caption = { firstName: 'Mara', date: '12 May 2026', view: 'Face on', club: '7 iron', checkpoint: 'Top' };
  return {
    rows: [
      {
        panels: Array.from({ length: panels }, (_, index) => ({
          picture: bay(1440, 1080, noise, index + 1),
          crop: null,
          look: 'plain' as const,
          caption: { ...caption, time: `${index} s` },
          marks: [LINE],
          readings: [{ label: 'Side tilt', value: '+6.1° ± 1.4°' }],
        })),
        comparisons: [],
      },
    ],
    notes: [],
    format: 'png',
    path,
    ...others,
  };
}

test.each(['png', 'jpeg'] as const)(
  'a %s says truly what was written, is sRGB and opaque, a JPEG also under 1 MB',
  async (format) => {
    const path = join(temporaryFolder(), `still.${format}`);
    const written = await writeStill(order(path, { format, noise: 50 }));
    const file = readFileSync(path);
    const facts = await sharp(file).metadata();
    expect(written).toEqual({ path, width: 1600, height: facts.height, bytes: file.length, format, note: null });
    expect({
      width: facts.width,
      format: facts.format,
      space: facts.space,
      opaque: (await sharp(file).stats()).isOpaque,
    }).toEqual({
      width: 1600,
      format,
      space: 'srgb',
      opaque: true,
    });
    if (format === 'jpeg') expect(file.length).toBeLessThanOrEqual(LIMIT);
  },
);

test('a JPEG says in its Exif part that it is sRGB', async () => {
  const { bytes } = await encodeStill({ ...order(''), format: 'jpeg', width: 800 });
  const { exif } = await sharp(bytes).metadata();
  // Exif 2.3, tag 0xA001 ColorSpace: a short, once, 1 = sRGB.
  expect(exif?.toString('hex')).toContain('a0010003000000010001');
});

test('a JPEG keeps colour for every pixel (4:4:4)', async () => {
  const { bytes } = await encodeStill({ ...order(''), format: 'jpeg', width: 800 });
  expect((await sharp(bytes).metadata()).chromaSubsampling).toBe('4:4:4');
});

test('the colour of a drawn line survives a JPEG; halved colour would smear it by far more than this', async () => {
  const { bytes } = await encodeStill({ ...order('', { noise: 60, width: 1100 }), format: 'jpeg' });
  const exact = await encodeStill({ ...order('', { noise: 60, width: 1100 }), format: 'png', mostBytes: 100_000_000 });
  const [lossy, painted] = await Promise.all(
    [bytes, exact.bytes].map((file) => sharp(file).removeAlpha().raw().toBuffer()),
  );
  if (lossy === undefined || painted === undefined) throw new Error('a still was not read back');
  let pixels = 0;
  for (let i = 0; i < painted.length; i += 3) {
    const isLine = painted[i] === 0x56 && painted[i + 1] === 0xb4 && painted[i + 2] === 0xe9;
    if (!isLine) continue;
    pixels += 1;
    for (const channel of [0, 1, 2]) within(lossy[i + channel] ?? -1, painted[i + channel] ?? -1, 40, `pixel ${i / 3}`);
  }
  expect(pixels).toBeGreaterThan(500);
});

test('a PNG holds every pixel as it was painted, however large that is, and says its size', async () => {
  const noisy = order('', { noise: 180, width: 1200 });
  const { bytes, note } = await encodeStill(noisy);
  expect(bytes.length).toBeGreaterThan(LIMIT);
  expect(note).toBe(
    `${(bytes.length / 1e6).toFixed(1)} MB, every colour exact. A JPEG is smaller and better for mail.`,
  );
  const painted = await paintStill({ ...noisy, cautions: STILL_CAUTIONS, width: 1200 });
  const read = await sharp(bytes).ensureAlpha().raw().toBuffer();
  expect(read.equals(Buffer.from(painted.rgba))).toBe(true);
  const colours = new Set<number>();
  for (let i = 0; i < read.length; i += 4) colours.add(read.readUInt32BE(i));
  expect(colours.size).toBeGreaterThan(10_000);
});

test('a PNG that must fit a size is made narrower, and says so', async () => {
  const wide = order('', { noise: 180, width: 800 });
  const mostBytes = Math.floor(0.7 * (await encodeStill(wide)).bytes.length);
  const { note, width, bytes } = await encodeStill({ ...wide, mostBytes });
  expect(width).toBeLessThan(800);
  expect(bytes.length).toBeLessThanOrEqual(mostBytes);
  expect(note).toContain(`${width} pixels wide instead of 800`);
});

test('what cannot fit at all is refused in one sentence', async () => {
  await expectRefused(encodeStill({ ...order(''), mostBytes: 1000 }), 'bad-arguments', /does not fit/);
});

test('a width beyond reason is refused', async () => {
  for (const width of [0, 639, 4001, Number.NaN])
    await expectRefused(encodeStill({ ...order(''), width }), 'bad-arguments', /640 to 4000/);
});

test('a file that is already there is left as it was, unless it may be replaced', async () => {
  const folder = temporaryFolder();
  const path = join(folder, 'still.png');
  writeFileSync(path, 'mine');
  await expectRefused(writeStill(order(path)), 'file-exists', /already there/);
  expect(readFileSync(path, 'utf8')).toBe('mine');
  expect(readdirSync(folder)).toEqual(['still.png']);
  await writeStill(order(path, { overwrite: true, width: 800 }));
  expect((await sharp(readFileSync(path)).metadata()).format).toBe('png');
  expect(readdirSync(folder)).toEqual(['still.png']);
});

test('a folder that is not there is one clear sentence', async () => {
  await expectRefused(writeStill(order(join(temporaryFolder(), 'gone', 'still.png'))), 'not-writable');
});

test('a place below a file, where nothing can be written, is one clear sentence', async () => {
  const file = join(temporaryFolder(), 'a-file');
  writeFileSync(file, '');
  await expectRefused(writeStill(order(join(file, 'still.png'))), 'not-writable');
});

test('a picture that is not the size it claims is our own mistake', async () => {
  const wrong = order('');
  const rows = wrong.rows.map((row) => ({
    ...row,
    panels: row.panels.map((panel) => ({ ...panel, picture: { ...panel.picture, height: 1000 } })),
  }));
  await expect(encodeStill({ ...wrong, rows })).rejects.toThrow(/picture is 1440 x 1080 pixels/);
});

test('a name in letters the type face lacks is told', async () => {
  const one = order('', { panels: 1, width: 800 });
  const named = (firstName: string) => ({
    ...one,
    rows: one.rows.map((row) => ({
      ...row,
      panels: row.panels.map((panel) => ({ ...panel, caption: { ...panel.caption, firstName } })),
    })),
  });
  expect((await encodeStill(named('Žofie Ωμέγα Nguyễn'))).note).toBeNull();
  expect((await encodeStill(named('山田'))).note).toContain('山田');
});
