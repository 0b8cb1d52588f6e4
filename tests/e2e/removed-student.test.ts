import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openBook } from '../../core/book/open-book.ts';
import { encodeClip } from '../../core/video/process/encode-clip.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { namesFound, searchBytes } from '../support/byte-search.ts';
import { seeded } from '../support/seeded.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';
import { ask, handOver } from './page-hands.ts';

/** Words that stand nowhere else. */
const WORDS = {
  'first name': 'Thessaly',
  'last name': 'Wrexhamby',
  note: 'keeps the grip of a falconer',
  label: 'third bucket of Tuesday',
  'clip name': 'zephyr-0417',
} as const;
/** Bytes from the middle of a file, as many as tell it from any other. */
const bytesOf = (path: string): Buffer => {
  const all = readFileSync(path);
  return all.subarray(all.length >> 1, (all.length >> 1) + 64);
};
const FRAMES = 12;

/** A clip of which any few bytes are in no other. */
async function makeNoiseClip(out: string, seed: number): Promise<void> {
  const random = seeded(seed);
  async function* pictures(): AsyncGenerator<Uint8Array> {
    for (let frame = 0; frame < FRAMES; frame += 1)
      yield Uint8Array.from({ length: 160 * 120 * 4 }, () => Math.floor(random() * 256));
  }
  const rate = { num: 120, den: 1 };
  await encodeClip({ ffmpeg: await findFfmpeg(), width: 160, height: 120, rate, frames: pictures(), sound: null, out });
}
const SEEN = { timeout: 30_000 };

describe('a student who is removed', () => {
  let folder: string;
  let program: RunningBaybook;
  let page: Page;
  /** All places where the program may leave something: its book, its settings with logs and caches, temporary files. */
  let places: readonly string[];
  let wanted: Record<string, string | Buffer>;
  let ownClip: string;
  let sharedClip: string;

  async function start(): Promise<void> {
    const [bookFolder, userData, temporary] = places;
    if (bookFolder === undefined || userData === undefined || temporary === undefined) throw new Error('no folders');
    program = await launchBaybook({ bookFolder, userData, environment: { TMPDIR: temporary } });
    page = program.window;
    page.setDefaultTimeout(20_000);
  }

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'baybook-removed-'));
    places = ['book', 'settings', 'temporary'].map((name) => join(folder, name));
    for (const place of places) mkdirSync(place);
    ownClip = join(folder, 'filmed', `${WORDS['clip name']}.mp4`);
    sharedClip = join(folder, 'filmed', 'both.mp4');
    mkdirSync(join(folder, 'filmed'));
    await makeNoiseClip(ownClip, 1);
    await makeNoiseClip(sharedClip, 2);
    wanted = { ...WORDS, 'clip bytes': bytesOf(ownClip), 'shared bytes': bytesOf(sharedClip) };
    await start();
  });
  afterAll(async () => {
    await program.close();
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  });

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
  const found = (): string[] => searchBytes(places, wanted).sort();
  const foundNames = (): string[] => namesFound(found());
  const copyPath = (sha256: string, end: 'scrub' | 'frames'): string =>
    join(places[1] ?? '', 'scrub-copies', `${sha256}.${end}`);

  async function addClip(swingId: string, view: 'face-on' | 'down-the-line', path: string): Promise<string> {
    await handOver(page, path);
    const order = { jobId: 'import', swingId, view, path, stored: 'copied', span: null } as const;
    const clip = await ask(page, 'clip/import', order);
    await ask(page, 'clip/show', { id: clip.id });
    const table = copyPath(clip.sha256, 'frames');
    await expect.poll(() => existsSync(table) && /complete/.test(readFileSync(table, 'latin1')), SEEN).toBe(true);
    return clip.sha256;
  }

  async function addSwing(name: Readonly<{ firstName: string; lastName: string }>, note: string, label: string) {
    const student = await ask(page, 'student/add', { ...name, handedness: 'right' });
    const facts = { date: '2026-05-12', club: '7 iron', handedness: 'right', note } as const;
    const lesson = await ask(page, 'lesson/add', { studentId: student.id, ...facts });
    return { studentId: student.id, swingId: (await ask(page, 'swing/add', { lessonId: lesson.id, label })).id };
  }

  /** Somebody who has a clip that nobody else has, one that another has too, marks, and an entry in the log. */
  async function addRemembered(): Promise<{ studentId: string; sha256: string }> {
    const name = { firstName: WORDS['first name'], lastName: WORDS['last name'] };
    const { studentId, swingId } = await addSwing(name, WORDS.note, WORDS.label);
    const sha256 = await addClip(swingId, 'face-on', ownClip);
    await addClip(swingId, 'down-the-line', sharedClip);
    wanted['copy for stepping'] = bytesOf(copyPath(sha256, 'scrub'));
    // Any address that is refused is an entry with what it says; so may be any fault of the system's about a file.
    await program.app.evaluate(
      ({ session }, words) => session.defaultSession.fetch(`http://out.example/${words}`).catch(() => undefined),
      `${name.firstName}-${name.lastName}`,
    );
    return { studentId, sha256 };
  }

  test('is nowhere any more: not in the book, in settings, caches or logs, while the program runs or after', async () => {
    const other = await addSwing({ firstName: 'Robin', lastName: 'Marsh' }, 'steady', 'Swing 1');
    const sharedSha = await addClip(other.swingId, 'face-on', sharedClip);
    const shared = [`shared bytes in ${join(places[0] ?? '', 'media', `${sharedSha}.mp4`)}`];
    const { sha256 } = await addRemembered();
    expect(foundNames()).toEqual(Object.keys(wanted).sort());
    expect(readFileSync(join(places[1] ?? '', 'faults.log'), 'utf8')).toContain('Thessaly-Wrexhamby');

    await page.reload();
    await button(/^Thessaly Wrexhamby/).click();
    await button(/^third bucket of Tuesday/).click();
    await page.getByText('Thessaly Wrexhamby').first().waitFor();
    await button('Students').click();
    await button('Remove student').click();
    // In the bin all of it is still there, and comes back.
    await page.getByText(/is in the bin for 30 days/).waitFor();
    await button('Put it back').click();
    await page.getByText(/is back\.$/).waitFor();
    expect(foundNames()).toEqual(Object.keys(wanted).sort());
    await button(/^Thessaly Wrexhamby/).click();
    await button('Remove student').click();
    await page.getByText(/is in the bin for 30 days/).waitFor();
    await page.getByRole('button', { name: 'Bin', exact: true }).click();
    await page.getByText('Student, 30 days left').waitFor();
    await button('Remove Thessaly Wrexhamby for good').click();
    await button('Remove for good').last().click();
    await page.getByText('The bin is empty.').waitFor();
    await page.getByRole('dialog').getByRole('button', { name: 'Close', exact: true }).click();
    await expect.poll(found, SEEN).toEqual(shared);
    expect(existsSync(copyPath(sha256, 'scrub'))).toBe(false);
    // The other one has the same clip still, and steps through it as before.
    expect(existsSync(copyPath(sharedSha, 'scrub'))).toBe(true);

    await program.close();
    expect(found()).toEqual(shared);
    await start();
  });

  test('is nowhere any more also when the program was killed right after it stored that', async () => {
    const { studentId } = await addRemembered();
    program.app.process().kill('SIGKILL');
    await program.close();
    // As it was left then: the rows are gone, what the program keeps beside them is not.
    const book = openBook(places[0] ?? '');
    book.removeStudent(studentId);
    book.close();
    expect(foundNames()).toEqual(['copy for stepping', 'first name', 'last name', 'shared bytes']);
    await start();
    await expect.poll(foundNames, SEEN).toEqual(['shared bytes']);
  });
});
