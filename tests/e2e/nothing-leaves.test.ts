import { copyFile, mkdir, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as rest } from 'node:timers/promises';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openConnectionWatch } from '../support/connection-watch.ts';
import type { ConnectionWatch } from '../support/connection-watch.ts';
import { requestedByChromium } from '../support/net-log.ts';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { launchBaybook } from './launch.ts';
import { answerDialogs } from './page-hands.ts';

const UNGUARDED_APP = join(import.meta.dirname, '..', 'support', 'unguarded-app');
/** What Chromium starts by itself, it starts within seconds; some of it waits for the first quiet moment. */
const WORK_MS = 30_000;

describe('a window that nobody guards', () => {
  let watch: ConnectionWatch;
  beforeAll(async () => {
    watch = await openConnectionWatch();
  });
  afterAll(() => watch.close());

  test('asks for names by itself, and the watch sees it', async () => {
    const other = await launchBaybook({ ...watch.launch, otherApp: UNGUARDED_APP });
    try {
      await expect.poll(() => watch.attempts(), { timeout: 30_000 }).toContainEqual(expect.stringMatching(/ port 53$/));
    } finally {
      await other.close();
    }
  });
});

describe('the whole program, watched from its first instruction on', () => {
  let watch: ConnectionWatch;
  let demo: DemoProgram;
  let page: Page;
  let begun: number;
  let netLog: string;

  beforeAll(async () => {
    watch = await openConnectionWatch();
    begun = performance.now();
    netLog = join(watch.folder, 'net-log');
    demo = await openDemoProgram('watched', { ...watch.launch, chromium: [`--log-net-log=${netLog}`] }, 'none');
    page = demo.page;
    // Half a minute is asked for; a busy machine may take longer over it.
    page.setDefaultTimeout(60_000);
  });
  afterAll(async () => {
    await demo.close();
    await watch.close();
  });

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });

  async function lookAndSend(): Promise<void> {
    await demo.openSwing();
    await page.getByLabel(/Compare with an earlier swing/).selectOption({ label: '14 April 2026, 7 iron, Swing 1' });
    await demo.openCell('Top');
    for (const key of ['ArrowRight', 'ArrowRight', 'ArrowLeft', '+', '+', 'f']) await page.keyboard.press(key);
    await page.getByText('Exact picture').waitFor();
    await button(/Robin Larkham, .*Swing 1/).click();
    const stills = join(demo.folder, 'stills');
    await mkdir(stills);
    await answerDialogs(demo.program.app, stills);
    await button('Save stills').click();
    await page
      .getByText(/Saved \d+ stills in/)
      .first()
      .waitFor({ timeout: 120_000 });
    await answerDialogs(demo.program.app, join(demo.folder, 'swing.json'));
    await button('Export swing').click();
    await expect.poll(() => readdir(demo.folder)).toContain('swing.json');
    await button('Students').click();
  }

  /** Typed key by key into every kind of field, with words that no dictionary has. */
  async function addStudent(): Promise<void> {
    const type = async (label: string, words: string): Promise<void> => {
      await page.getByRole('dialog').getByLabel(label).click();
      await page.keyboard.type(words);
    };
    await button('Add a student').click();
    await type('First name', 'Wrennick');
    await button('Add student').click();
    await button('Add a lesson').click();
    await type('Note (for yourself)', 'Quiett hands, wider takeawey');
    await button('Add lesson').click();
    await button(/^Swing 1/).click();
    const [clip] = await readdir(join(demo.program.bookFolder, 'media'));
    const chosen = join(demo.folder, 'filmed.mp4');
    await copyFile(join(demo.program.bookFolder, 'media', clip ?? 'none'), chosen);
    await answerDialogs(demo.program.app, chosen);
    await button('Add a clip, down the line').click();
    await page
      .getByRole('dialog')
      .getByText(/^\d+ frames, /)
      .waitFor();
    await button('Add clip').click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await button('Students').click();
    await button('Remove student').click();
    await page.getByRole('button', { name: 'Bin', exact: true }).click();
    await page.getByRole('button', { name: /for good$/ }).click();
    await button('Remove for good').last().click();
    await page.getByText('The bin is empty.').waitFor();
    await page.getByRole('dialog').getByRole('button', { name: 'Close', exact: true }).click();
  }

  async function lookElsewhere(): Promise<void> {
    for (const name of ['Goals', 'Repeat check', 'Close', 'Students']) await button(name).first().click();
    await button('Settings').click();
    await page.keyboard.press('Escape');
  }

  test('tries to reach nobody while it is worked with for half a minute', { timeout: 400_000 }, async () => {
    await lookAndSend();
    await addStudent();
    await lookElsewhere();
    await rest(Math.max(0, begun + WORK_MS - performance.now()));
    expect(await watch.attempts()).toEqual([]);
    expect(await watch.calls()).toBeGreaterThan(0);
    // Nor did it want to: a request that came to nothing for want of a way out would stand here.
    expect(await requestedByChromium(netLog)).toEqual([]);
  });

  test('was watched to the end: what it is made to try now is seen, by each of its ways', async () => {
    await demo.program.app.evaluate(async () => {
      const { connect } = process.getBuiltinModule('node:net');
      const { createSocket } = process.getBuiltinModule('node:dgram');
      const { execFile } = process.getBuiltinModule('node:child_process');
      // Addresses set aside for examples (RFC 5737), and a name that cannot be (RFC 6761).
      connect(9, '192.0.2.1')
        .on('error', () => undefined)
        .unref();
      const datagram = createSocket('udp4').on('error', () => undefined);
      datagram.send('x', 9, '198.51.100.1', () => datagram.close());
      await new Promise((resolve) => execFile('getent', ['hosts', 'control.invalid'], resolve));
    });
    const seen = (wanted: RegExp) => expect.poll(() => watch.attempts()).toContainEqual(expect.stringMatching(wanted));
    await seen(/^connect 192\.0\.2\.1 port 9$/);
    await seen(/^send\w+ 198\.51\.100\.1 port 9$/);
    await seen(/ port 53$/);
  });
});
