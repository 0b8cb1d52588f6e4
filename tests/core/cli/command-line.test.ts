import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openBook } from '../../../core/book/open-book.ts';
import { COMMANDS } from '../../../core/cli/commands/list.ts';
import { columns } from '../../../core/cli/table.ts';
import { writePicture } from '../../../core/cli/write-picture.ts';
import { BODY_POINTS } from '../../../core/model/body-points.ts';
import type { Reading } from '../../../core/model/reading.ts';
import { writeSwingFile } from '../../../core/swing-file/write-swing-file.ts';
import { addSample, addSampleClip, sampleFrame } from '../book/sample.ts';
import { markedClip } from '../jobs/marked-swing.ts';
import { sampleSwing } from '../swing-file/sample-swing.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectRefused } from '../../support/trouble.ts';
import { baybook } from './run-baybook.ts';

describe('the command line', () => {
  it('lists every command when nothing is asked', async () => {
    const { code, out } = await baybook();
    expect(code).toBe(0);
    for (const command of COMMANDS) expect(out).toContain(`baybook ${command.name}`);
  });

  it.each(COMMANDS.map((command) => [command.name, command] as const))(
    '%s --help names each option',
    async (name, command) => {
      const { code, out, said } = await baybook(name, '--help');
      expect({ code, said }).toEqual({ code: 0, said: [] });
      for (const option of Object.keys(command.options)) expect(out).toContain(`--${option}`);
      for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(120);
    },
  );

  it.each([
    [['swing'], 'There is no command "swing"'],
    [['frames'], 'Something is missing'],
    [['frames', 'a.mp4', 'b.mp4'], '"b.mp4" is one argument too many'],
    [['frames', '--colour', 'a.mp4'], "'--colour'"],
    [['still', 'a.mp4', '--out', 'a.png'], 'Say which frame'],
    [['still', 'a.mp4', '--out', 'a.png', '--index', '1', '--at', '2'], 'Say which frame'],
    [['still', 'a.mp4', '--out', 'a.png', '--index=-1'], 'whole number from 0'],
    [['still', 'a.mp4', '--out', 'a.png', '--index', '1.5'], 'whole number from 0'],
    [['still', 'a.mp4', '--out', 'a.png', '--at', 'soon'], '--at takes seconds'],
    [['still', 'a.mp4', '--index', '1'], 'Say where to write'],
    [['compare', 'then.json'], 'Something is missing'],
  ])('%j says what is wrong in one sentence and exits with 2', async (argv, sentence) => {
    const { code, out, said } = await baybook(...argv);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(said).toHaveLength(1);
    expect(said[0]).toContain(sentence);
    expect(said[0]).not.toContain('    at ');
  });

  it('gives the error as data too where JSON was asked for', async () => {
    const { code, out, said } = await baybook('read', '--json', join(temporaryFolder(), 'none.json'));
    const answer: unknown = JSON.parse(out);
    expect({ code, answer }).toEqual({ code: 2, answer: { error: { code: 'file-not-found', message: said[0] } } });
  });
});

describe('a book given to read with', () => {
  it('narrows the ± of points that its repeat checks know, and is not made when it is not there', async () => {
    const folder = temporaryFolder();
    const swing = join(folder, 'swing.json');
    await writeSwingFile(swing, sampleSwing());
    const book = openBook(join(folder, 'book'));
    const clip = await addSampleClip(book, addSample(book).swing.id);
    const twice = [
      { x: 100, y: 100 },
      { x: 101, y: 100 },
    ];
    const placings = Object.fromEntries(BODY_POINTS.map((point) => [point, twice]));
    book.addRepeatCheck({
      at: '2026-05-12T09:30:00.000Z',
      namings: [],
      frames: [{ clipId: clip.id, frame: sampleFrame(2), placings }],
    });
    book.close();
    const read = async (...more: string[]) => {
      const { code, out } = await baybook('read', swing, '--json', ...more);
      expect(code).toBe(0);
      const answer = JSON.parse(out) as { readings: readonly Reading[] };
      return answer.readings.flatMap((reading) =>
        reading.state === 'measured' && reading.from.length > 0 ? [reading] : [],
      );
    };
    const [plain, own] = [await read(), await read('--book', join(folder, 'book'))];
    expect(plain.length).toBeGreaterThan(0);
    expect(own.map(({ value }) => value)).toEqual(plain.map(({ value }) => value));
    // A line that may lie any way is no surer for it.
    const isFree = ({ notes }: { readonly notes: readonly string[] }) => notes.includes('short-line');
    for (const [at, reading] of own.entries()) if (!isFree(reading)) expect(reading.u).toBeLessThan(plain[at]?.u ?? 0);
    const none = join(folder, 'none');
    const { code, said } = await baybook('read', swing, '--book', none);
    expect(code).toBe(2);
    expect(said[0]).toContain(`There is no book in ${none}`);
    expect(existsSync(none)).toBe(false);
  });

  it('reads with a check of the clubhead alone: an error that counts for next to nothing has nearly endless freedom', async () => {
    const folder = temporaryFolder();
    const swing = join(folder, 'swing.json');
    const clips = [
      markedClip('down-the-line', { address: 2, takeaway: 5, top: 9, impact: 12 }),
      markedClip('face-on', { address: 2, 'lead-arm-level-down': 10, impact: 12 }),
    ].map((clip) => ({ ...clip, file: 'a.mp4', sha256: 'a'.repeat(64) }));
    await writeSwingFile(swing, { ...sampleSwing(), pins: [], clips });
    const book = openBook(join(folder, 'book'));
    const clip = await addSampleClip(book, addSample(book).swing.id);
    const placings = { clubhead: Array.from({ length: 20 }, (_, i) => ({ x: 100 + (i % 2) / 10, y: 100 })) };
    book.addRepeatCheck({
      at: '2026-05-12T09:30:00.000Z',
      namings: [],
      frames: [{ clipId: clip.id, frame: sampleFrame(2), placings }],
    });
    book.close();
    const { code, out, said } = await baybook('read', swing, '--json', '--book', join(folder, 'book'));
    expect({ code, said }).toEqual({ code: 0, said: [] });
    const { readings } = JSON.parse(out) as { readings: readonly Reading[] };
    const withClubhead = readings.filter(
      (reading) => reading.state === 'measured' && reading.from.some(({ point }) => point === 'clubhead'),
    );
    expect(withClubhead.length).toBeGreaterThan(5);
  });
});

describe('read', () => {
  it('says what each ± is made of where that is asked for, and only then', async () => {
    const path = join(temporaryFolder(), 'swing.json');
    // 30 frames a second: long enough a backswing to be worth its number.
    const rate = { num: 30, den: 1 };
    const clip = {
      ...markedClip('face-on', { address: 2, takeaway: 5, top: 25, impact: 33 }),
      ...{
        timebase: { num: 1, den: 15_360 },
        nominalRate: rate,
        captureRate: { framesPerSecond: rate, confirmed: true },
      },
      ...{ file: 'a.mp4', sha256: 'a'.repeat(64) },
    };
    writeFileSync(path, JSON.stringify({ ...sampleSwing(), pins: [], clips: [clip] }));
    const [plain, whole] = [await baybook('read', path), await baybook('read', '--budget', path)];
    expect([plain.code, whole.code]).toEqual([0, 0]);
    expect(plain.out).not.toMatch(/time of frames ±/);
    expect(whole.out).toMatch(/Backswing .* s .*time of frames ± [\d.]+ s/);
  });
});

describe('columns', () => {
  it('are as wide as their widest cell, without trailing spaces', () => {
    expect(columns([['a', 'bb'], ['ccc', ''], []])).toEqual(['a    bb', 'ccc', '']);
  });
});

describe('writePicture', () => {
  const png = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1]);

  it('replaces an earlier PNG and an empty file, and says which', async () => {
    const path = join(temporaryFolder(), 'still.png');
    expect(await writePicture(path, png)).toBe(false);
    expect(await writePicture(path, png)).toBe(true);
    writeFileSync(path, '');
    expect(await writePicture(path, png)).toBe(false);
    expect(readFileSync(path)).toEqual(png);
  });

  it('leaves anything else alone', async () => {
    const folder = temporaryFolder();
    const path = join(folder, 'swing.json');
    writeFileSync(path, '{}');
    await expectRefused(writePicture(path, png), 'file-exists', /is no PNG/);
    await expectRefused(writePicture(folder, png), 'file-exists');
    expect(readFileSync(path, 'utf8')).toBe('{}');
    await expectRefused(writePicture(join(folder, 'none', 'still.png'), png), 'not-writable');
  });
});
