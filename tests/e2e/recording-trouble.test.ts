import { readdirSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { onSmallDiskMeanwhile } from '../support/small-disk.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { ask } from './page-hands.ts';

/** Whatever goes wrong while a talk-through is recorded: a sentence says what to do, and all that was recorded is there. */
describe('while a talk-through is recorded', () => {
  let demo: DemoProgram;
  let page: Page;

  beforeAll(async () => {
    demo = await openDemoProgram('recording-trouble', { chromium: ['--use-fake-device-for-media-stream'] });
    page = demo.page;
    await demo.openSwing();
    await demo.openCell('Top');
    // What listens to a microphone is kept in reach, so that it can be pulled out.
    await page.evaluate(() => {
      const { mediaDevices } = navigator;
      const listen = mediaDevices.getUserMedia.bind(mediaDevices);
      mediaDevices.getUserMedia = async (constraints) => {
        const stream = await listen(constraints);
        Object.assign(window, { heardStream: stream });
        return stream;
      };
    });
  });
  afterAll(() => demo.close());

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
  const takes = async () => (await ask(page, 'talk/read', { swingId: demo.ids.now }))?.takes ?? [];
  /** A busy machine may pass over a second. */
  const soFar = async (seconds: number): Promise<void> => {
    const shown = async (): Promise<number> => {
      const label = await page.getByLabel(/^Recorded so far: /).getAttribute('aria-label');
      const [minutes = 0, rest = 0] = (label?.match(/\d+/g) ?? []).map(Number);
      return 60 * minutes + rest;
    };
    await expect.poll(shown, { timeout: 20_000 }).toBeGreaterThanOrEqual(seconds);
  };
  const stop = async (): Promise<void> => {
    await button('Stop recording').click();
    await button('Save video').waitFor();
  };

  test('keys record, pause, go on and stop; a second press of a hand that was quick begins nothing twice', async () => {
    const record = button('Record a talk-through');
    await record.waitFor();
    expect(await record.getAttribute('title')).toMatch(/Key Shift\+R$/);
    await record.evaluate((element: HTMLElement) => {
      element.click();
      element.click();
    });
    await page.getByText('Recording', { exact: true }).waitFor();
    await soFar(1);
    await page.keyboard.press('Shift+P');
    await page.getByText('Paused', { exact: true }).waitFor();
    await page.waitForTimeout(1500);
    await page.keyboard.press('Shift+P');
    await page.getByText('Recording', { exact: true }).waitFor();
    await page.keyboard.press('Shift+R');
    await button('Save video').waitFor();
    const [take, ...others] = await takes();
    expect(others).toEqual([]);
    expect(take?.length).toBeGreaterThan(900);
    // What passed while it was paused is no part of it.
    expect(take?.length).toBeLessThan(2900);
  });

  test('a microphone that is pulled out pauses it, keeps all, and is taken again', async () => {
    await page.keyboard.press('Shift+R');
    await soFar(1);
    const pullOut = (): Promise<void> =>
      page.evaluate(() => {
        const { heardStream } = window as unknown as { heardStream: MediaStream };
        for (const track of heardStream.getTracks()) {
          track.stop();
          // Chromium tells so of a device that is gone.
          track.dispatchEvent(new Event('ended'));
        }
      });
    await pullOut();
    const sentence = page.getByText(
      /^The microphone is gone, so the recording is paused\. All that you said is kept\./,
    );
    await sentence.waitFor();
    await page.getByText('Paused', { exact: true }).waitFor();
    await button('Go on').click();
    await page.getByText('Recording', { exact: true }).waitFor();
    await sentence.waitFor({ state: 'detached' });
    await soFar(2);
    await stop();
    expect((await takes())[1]?.length).toBeGreaterThan(1900);
  });

  test('a clip whose file is moved away is said to be gone; what is said and shown goes on and is kept', async () => {
    await page.keyboard.press('Shift+R');
    await soFar(1);
    const media = join(demo.folder, 'book', 'media');
    const files = readdirSync(media);
    for (const file of files) renameSync(join(media, file), join(media, `${file}.moved`));
    const copies = join(demo.folder, 'settings', 'scrub-copies');
    renameSync(copies, `${copies}.moved`);
    for (let step = 0; step < 40; step += 1) await page.keyboard.press('Shift+ArrowRight');
    for (let step = 0; step < 40; step += 1) await page.keyboard.press('Shift+ArrowLeft');
    await page.getByRole('alert').first().waitFor();
    const said = await page.getByRole('alert').first().innerText();
    await soFar(3);
    await stop();
    renameSync(`${copies}.moved`, copies);
    for (const file of files) renameSync(join(media, `${file}.moved`), join(media, file));
    const take = (await takes())[2];
    expect(take?.length).toBeGreaterThan(2900);
    expect(take?.events.filter(({ kind }) => kind === 'frame').length).toBeGreaterThan(4);
    expect(said).toMatch(/Find|find|Put|put/);
  });

  test('a window that is closed keeps what was said up to then, as a part like any other', async () => {
    await page.keyboard.press('Shift+R');
    await soFar(2);
    await demo.restart();
    page = demo.page;
    await demo.openSwing();
    await page.getByRole('button', { name: 'Talk-through', exact: true }).click();
    await button('Save video').waitFor();
    const talk = await ask(page, 'talk/read', { swingId: demo.ids.now });
    expect([talk?.takes.length, talk?.brokenOff]).toEqual([4, null]);
    expect(talk?.takes[3]?.length).toBeGreaterThan(1900);
    const { talkEdits } = await demo.readSwing();
    expect(talkEdits?.map((edit) => edit.kind === 'retake' && edit.take)).toEqual([1, 2, 3]);
  });
});

test('a disk that is full ends the recording with a sentence; all until then is kept, and it goes on from there', async () => {
  const folder = temporaryFolder();
  const script = join(import.meta.dirname, 'children', 'record-on-full-disk.ts');
  const told = JSON.parse(await onSmallDiskMeanwhile(script, join(folder, 'disk'), 12, join(folder, 'elsewhere'))) as {
    readonly said: string;
    readonly first: readonly { readonly length: number; readonly sound: boolean }[];
    readonly kept: number;
  };
  expect(told.said).toMatch(
    /^The disk is full: .*Make room.* What you said until then is kept: press “Record” to go on/,
  );
  expect(told.first).toEqual([{ length: told.kept, sound: true }]);
  // The room that was left holds two seconds.
  expect(told.kept).toBeGreaterThan(1800);
  expect(told).toMatchObject({ on: true, edits: [{ kind: 'retake', from: told.kept, take: 1 }] });
});
