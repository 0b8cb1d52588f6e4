import { readdirSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Requests } from '../../electron/ipc/contract.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { makeGreyClip } from '../support/grey-clip.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { launchBaybook, type RunningBaybook } from './launch.ts';
import { ask, handOver, request } from './page-hands.ts';
import { nameFrame } from './write-edits.ts';

const UNKNOWN = '0b9f7c52-3a54-4a0e-9a55-6f6f2f7f1d10';
const PAGE = 'baybook://window/index.html';

let baybook: RunningBaybook;
beforeAll(async () => {
  baybook = await launchBaybook();
});
afterAll(() => baybook.close());

/** A server that any page could reach, and how often somebody did. */
async function neighbour() {
  let hits = 0;
  const server = createServer((_request, response) => {
    hits += 1;
    response.setHeader('access-control-allow-origin', '*');
    response.end('<p>elsewhere</p>');
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  const { port } = server.address() as AddressInfo;
  return { url: `http://127.0.0.1:${port}/`, hits: () => hits, close: () => server.close() };
}

/** A student with a lesson and an empty swing, added as the page adds them. */
async function newSwing(): Promise<string> {
  const student = await ask(baybook.window, 'student/add', {
    firstName: 'Robin',
    lastName: 'Marsh',
    handedness: 'right',
  });
  const facts = { studentId: student.id, date: '2026-05-12', club: '7 iron', handedness: 'right', note: '' } as const;
  const lesson = await ask(baybook.window, 'lesson/add', facts);
  return (await ask(baybook.window, 'swing/add', { lessonId: lesson.id, label: 'Swing 1' })).id;
}

async function newClipFile(frames = 12): Promise<string> {
  const out = join(temporaryFolder(), 'swing.mp4');
  await makeGreyClip({ ffmpeg: await findFfmpeg(), out, frames });
  return out;
}

describe('the page in the window', () => {
  it('has a bridge of seven functions, and nothing of Node or Electron', async () => {
    const found = await baybook.window.evaluate(() => ({
      bridge: Object.keys(window.baybook).sort(),
      leaked: ['require', 'process', 'module', 'Buffer', 'global', 'electron', 'ipcRenderer'].filter(
        (name) => name in window,
      ),
    }));
    expect(found).toEqual({
      bridge: [
        ...['giveMemoryBack', 'onClipSettled', 'onFramesStopped', 'onJobReport', 'onWindUp'],
        ...['pathOfDroppedFile', 'request'],
      ],
      leaked: [],
    });
  });

  it('cannot change its bridge', async () => {
    const changed = await baybook.window.evaluate(() => {
      const before = window.baybook.request;
      try {
        Object.assign(window.baybook, { request: null });
      } catch {
        // frozen, as it should be
      }
      return window.baybook.request !== before;
    });
    expect(changed).toBe(false);
  });

  it('runs no code made from text and no script written into the page', async () => {
    const ran = await baybook.window.evaluate(async () => {
      const script = document.createElement('script');
      script.textContent = 'window.ranInline = true';
      document.body.append(script);
      await new Promise((resolve) => setTimeout(resolve, 50));
      let made = true;
      try {
        Reflect.construct(Function, ['return 1']);
      } catch {
        made = false;
      }
      return { made, inline: 'ranInline' in window };
    });
    expect(ran).toEqual({ made: false, inline: false });
  });

  it('opens no other window and stays where it is, whatever it is told', async () => {
    const elsewhere = await neighbour();
    try {
      expect(await baybook.window.evaluate((url) => window.open(url) === null, elsewhere.url)).toBe(true);
      for (const url of [elsewhere.url, 'file:///etc/passwd'])
        await baybook.window.evaluate((target) => {
          const link = document.createElement('a');
          link.href = target;
          document.body.append(link);
          link.click();
          link.remove();
          location.href = target;
        }, url);
      await new Promise((resolve) => setTimeout(resolve, 300));
      expect(baybook.window.url()).toBe(PAGE);
      expect(baybook.app.windows()).toHaveLength(1);
      expect(elsewhere.hits()).toBe(0);
    } finally {
      elsewhere.close();
    }
  });

  it('is back at once after an empty page, which nothing can forbid', async () => {
    await baybook.window.evaluate(() => {
      location.href = 'about:blank';
    });
    await expect.poll(() => baybook.window.evaluate(() => [location.href, 'baybook' in window])).toEqual([PAGE, true]);
  });

  it('stays when a file is dropped on it', async () => {
    const path = await newClipFile();
    const session = await baybook.window.context().newCDPSession(baybook.window);
    const drag = { x: 5, y: 5, data: { items: [], files: [path], dragOperationsMask: 1 } };
    for (const type of ['dragEnter', 'dragOver', 'drop'] as const)
      await session.send('Input.dispatchDragEvent', { type, ...drag });
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect(baybook.window.url()).toBe(PAGE);
    await session.detach();
  });

  it('reaches no network: neither by itself nor, policy aside, through its session', async () => {
    const elsewhere = await neighbour();
    try {
      const reached = await baybook.window.evaluate(async (url) => {
        const fetched = await fetch(url, { mode: 'no-cors' }).then(
          () => true,
          () => false,
        );
        const shown = await new Promise<boolean>((resolve) => {
          const image = new Image();
          image.onload = () => resolve(true);
          image.onerror = () => resolve(false);
          image.src = url;
        });
        const sent = navigator.sendBeacon(url, 'x') && false;
        return { fetched, shown, sent };
      }, elsewhere.url);
      expect(reached).toEqual({ fetched: false, shown: false, sent: false });
      const bySession = await baybook.app.evaluate(
        ({ session }, url) =>
          session.defaultSession.fetch(url).then(
            () => true,
            () => false,
          ),
        elsewhere.url,
      );
      expect(bySession).toBe(false);
      expect(elsewhere.hits()).toBe(0);
    } finally {
      elsewhere.close();
    }
  });

  it('reads no file of the disk', async () => {
    const read = await baybook.window.evaluate(() =>
      Promise.all(
        ['file:///etc/passwd', 'baybook://window/../main/main.js', 'baybook://window/%2e%2e/main/main.js'].map((url) =>
          fetch(url).then(
            (answer) => answer.ok,
            () => false,
          ),
        ),
      ),
    );
    expect(read).toEqual([false, false, false]);
  });

  it('is given no permission', async () => {
    const given = await baybook.window.evaluate(async () => {
      const names = ['geolocation', 'notifications', 'camera', 'microphone', 'clipboard-read'] as PermissionName[];
      const states = await Promise.all(names.map(async (name) => (await navigator.permissions.query({ name })).state));
      const camera = await navigator.mediaDevices.getUserMedia({ video: true }).then(
        () => true,
        () => false,
      );
      return { states: [...new Set(states)], camera };
    });
    expect(given).toEqual({ states: ['denied'], camera: false });
  });
});

describe('a request', () => {
  it('that is unknown or wrong is answered by an error as data', async () => {
    const page = baybook.window;
    const outcomes = await page.evaluate(() =>
      Promise.all([
        window.baybook.request('job/start' as 'job/cancel', { jobId: 'a' }),
        window.baybook.request('__proto__' as 'job/cancel', { jobId: 'a' }),
        window.baybook.request('job/cancel', { jobId: 7 } as unknown as { jobId: string }),
        window.baybook.request('student/add', null as never),
      ]),
    );
    for (const outcome of outcomes) expect(outcome).toMatchObject({ ok: false, error: { code: 'bad-request' } });
    expect(await request(page, 'swing/open', { id: UNKNOWN })).toMatchObject({
      ok: false,
      error: { code: 'no-such-record' },
    });
  });

  it('tells the facts of the program', async () => {
    const facts = await ask(baybook.window, 'program/facts', null);
    expect(facts.bookFolder).toBe(baybook.bookFolder);
    expect(facts.version).toMatch(/^\d+\.\d+\.\d+$/);
    expect(facts.ffmpeg?.version).not.toBe('');
  });

  it('for a path that the coach did not choose is refused', async () => {
    const swingId = await newSwing();
    const path = await newClipFile();
    const order = { jobId: 'a', swingId, view: 'face-on', path, stored: 'copied', span: null } as const;
    expect(await request(baybook.window, 'clip/import', order)).toMatchObject({ error: { code: 'bad-request' } });
    const made = await baybook.window.evaluate(() => window.baybook.pathOfDroppedFile(new File(['x'], '/etc/passwd')));
    expect(made).toBeNull();
    for (const folder of ['/', baybook.bookFolder])
      expect(await request(baybook.window, 'stills/show-folder', { folder })).toMatchObject({
        error: { code: 'bad-request' },
      });
  });
});

describe('stills', () => {
  it('are saved where the coach says, reported on the way, and can be stopped; that folder may then be shown', async () => {
    const { window: page, app } = baybook;
    const swingId = await newSwing();
    const path = await newClipFile(12);
    const folder = temporaryFolder();
    // The system's dialogs cannot be worked from here; these are the coach's answers.
    await app.evaluate(
      ({ dialog, shell }, answers) => {
        dialog.showOpenDialog = async (...args: unknown[]) => {
          const wantsFolder = JSON.stringify(args.at(-1)).includes('openDirectory');
          return { canceled: false, filePaths: [wantsFolder ? answers.folder : answers.path] };
        };
        shell.openPath = async (opened) => (opened === answers.folder ? '' : 'not that one');
      },
      { folder, path },
    );
    expect(await ask(page, 'clip/choose', null)).toEqual({ path });
    const clip = await ask(page, 'clip/import', {
      jobId: 'import',
      swingId,
      view: 'face-on',
      path,
      stored: 'linked',
      span: null,
    });
    const { frames } = await ask(page, 'clip/index', { id: clip.id });
    for (const [checkpoint, index] of [
      ['address', 1],
      ['top', 6],
    ] as const)
      await nameFrame(page, clip, checkpoint, { index, pts: frames[index]?.pts ?? -1, ticks: 1 });

    const reports = await page.evaluateHandle(() => {
      const list: string[] = [];
      window.baybook.onJobReport((report) => list.push(`${report.jobId} ${report.done}/${report.total}`));
      return list;
    });
    const order: Requests['stills/save']['in'] = {
      ...{ jobId: 'stills', swingId, thenSwingId: null, layout: 'mail', width: 800, folder: null },
      ...{ checkpoints: ['address', 'top'], views: ['face-on'], format: 'png' },
    };
    const saved = await ask(page, 'stills/save', order);
    expect(saved).toEqual({ folder, files: [join(folder, 'Robin-2026-05-12-face-on-address-top.png')] });
    expect(readdirSync(folder)).toContain('Robin-2026-05-12-face-on-address-top.png.txt');
    expect(await reports.jsonValue()).toContain('stills 3/3');
    const again = await ask(page, 'stills/save', { ...order, folder });
    expect(again?.files).toEqual([join(folder, 'Robin-2026-05-12-face-on-address-top-2.png')]);
    expect(await request(page, 'stills/show-folder', { folder })).toEqual({ ok: true, value: null });

    // Reading two small pictures is quick: half-way through, the thread is at the still.
    const large = { ...order, folder, width: 4000 };
    const begun = performance.now();
    const whole = await ask(page, 'stills/save', large);
    const halfway = (performance.now() - begun) / 2;
    expect(whole?.files).toEqual([join(folder, 'Robin-2026-05-12-face-on-address-top-3.png')]);
    const stopped = await page.evaluate(
      async ([wanted, wait]) => {
        const running = window.baybook.request('stills/save', wanted);
        await new Promise((resolve) => setTimeout(resolve, wait));
        await window.baybook.request('job/cancel', { jobId: wanted.jobId });
        return running;
      },
      [large, halfway] as const,
    );
    expect(stopped).toMatchObject({ ok: false, error: { code: 'cancelled' } });
    expect(readdirSync(folder)).toHaveLength(6);
    const afterwards = await ask(page, 'stills/save', { ...order, folder });
    expect(afterwards?.files).toEqual([join(folder, 'Robin-2026-05-12-face-on-address-top-4.png')]);
  });
});

describe('a job', () => {
  it('that is cancelled says so and leaves nothing', async () => {
    const page = baybook.window;
    const swingId = await newSwing();
    const path = await newClipFile(28);
    await handOver(page, path);
    const outcome = await page.evaluate(
      async (order) => {
        const running = window.baybook.request('clip/import', order);
        await window.baybook.request('job/cancel', { jobId: order.jobId });
        return running;
      },
      { jobId: 'import', swingId, view: 'face-on', path, stored: 'copied', span: null } as const,
    );
    expect(outcome).toMatchObject({ ok: false, error: { code: 'cancelled' } });
    expect((await ask(page, 'swing/open', { id: swingId })).clips).toEqual([]);
  });

  it('that makes the demo can be cancelled as well, and no student of it stays', async () => {
    const before = (await ask(baybook.window, 'student/list', null)).length;
    const outcome = await baybook.window.evaluate(async () => {
      const running = window.baybook.request('demo/make', { jobId: 'demo' });
      await new Promise<void>((resolve) => {
        const stop = window.baybook.onJobReport(({ jobId, done }) => {
          if (jobId !== 'demo' || done < 3) return;
          stop();
          resolve();
        });
      });
      await window.baybook.request('job/cancel', { jobId: 'demo' });
      return running;
    });
    expect(outcome).toMatchObject({ ok: false, error: { code: 'cancelled' } });
    expect(await ask(baybook.window, 'student/list', null)).toHaveLength(before);
  });
});
