import { join } from 'node:path';
import { setTimeout as rest } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { openConnectionWatch } from '../support/connection-watch.ts';
import type { ConnectionWatch } from '../support/connection-watch.ts';
import { listenOnLoopback } from '../support/listening.ts';
import type { Listening } from '../support/listening.ts';
import { tryPeerConnections } from '../support/peer-connections.ts';
import { tryLeaving, tryRequests } from '../support/roads-out.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';

/**
 * The page tries to tell somebody something, by all that a browser has for that. On loopback somebody listens, and what
 * goes elsewhere the watch sees; 203.0.113.7 is an address for examples (RFC 5737), out.example a name (RFC 2606).
 */

const UNGUARDED_APP = join(import.meta.dirname, '..', 'support', 'unguarded-app');
const PAGE = 'baybook://window/index.html';
/**
 * With some of this Chromium asks the system by which of its addresses it would go out, for a socket that it then closes.
 * No packet goes with that and nothing of the page, which must have been taken over first: at work there is none of it.
 */
const ASKS_THE_SYSTEM = /^connect (?:8\.8\.8\.8 port 53|2001:4860:4860::8888 port (?:53|443))$/;
/** After the last try, for what a browser puts off. */
const LATE_MS = 3000;

let watch: ConnectionWatch;
let listening: Listening;
beforeEach(async () => {
  listening = await listenOnLoopback();
});
afterEach(() => listening.close());

const targets = (): string[] => [
  `127.0.0.1:${String(listening.tcpPort)}`,
  `localhost:${String(listening.tcpPort)}`,
  '203.0.113.7',
  'out.example',
];

describe('a page that nobody guards', () => {
  let other: RunningBaybook;
  beforeAll(async () => {
    watch = await openConnectionWatch();
    other = await launchBaybook({ ...watch.launch, otherApp: UNGUARDED_APP });
  });
  afterAll(async () => {
    await other.close();
    await watch.close();
  });

  test('is heard by peer connections and by requests, so that the ears and the watch are good', async () => {
    await tryPeerConnections(other.window, listening);
    expect(listening.heard().length).toBeGreaterThan(0);
    const before = listening.heard().length;
    await tryRequests(other.window, targets());
    await expect.poll(() => listening.heard().length).toBeGreaterThan(before);
    await expect.poll(() => watch.attempts()).toContainEqual(expect.stringMatching(/^connect 203\.0\.113\.7 port 80$/));
  });
});

describe("Baybook's page", () => {
  let baybook: RunningBaybook;
  let page: Page;
  beforeAll(async () => {
    watch = await openConnectionWatch();
    baybook = await launchBaybook(watch.launch);
    page = baybook.window;
    page.setDefaultTimeout(20_000);
  });
  afterAll(async () => {
    await baybook.close();
    await watch.close();
  });
  const attempts = async () => (await watch.attempts()).filter((each) => !ASKS_THE_SYSTEM.test(each));
  const heard = () => listening.heard().map((bytes) => bytes.toString('latin1'));

  test('reaches nobody by any kind of request, also where its own policy is set aside', async () => {
    await tryRequests(page, targets());
    await tryLeaving(page, targets());
    const session = await page.context().newCDPSession(page);
    await session.send('Page.setBypassCSP', { enabled: true });
    await page.reload();
    await tryRequests(page, targets());
    await tryLeaving(page, targets());
    await rest(LATE_MS);
    expect({ heard: heard(), attempts: await attempts() }).toEqual({ heard: [], attempts: [] });
    await session.send('Page.setBypassCSP', { enabled: false });
    await session.detach();
    await page.reload();
  });

  test('has no peer connections, and an empty frame that would have them takes the page back to its start', async () => {
    const has = () =>
      page.evaluate(() => ['RTCPeerConnection', 'webkitRTCPeerConnection'].filter((name) => name in window));
    expect(await has()).toEqual([]);
    await page.evaluate(() => {
      document.body.append(document.createElement('iframe'));
      document.body.dataset['before'] = 'yes';
    });
    const isNew = () => page.evaluate(() => document.body.dataset['before'] === undefined && frames.length === 0);
    await expect.poll(() => isNew().catch(() => false)).toBe(true);
    expect(page.url()).toBe(PAGE);
    expect(await has()).toEqual([]);
    expect(await attempts()).toEqual([]);
  });

  test('would reach nobody by a peer connection, if it could make one: neither by UDP nor by a relay over TCP', async () => {
    for (const ended of await tryPeerConnections(page, listening))
      expect(ended).toMatch(/ complete, nowhere to be reached$/);
    expect(heard()).toEqual([]);
    expect(await attempts()).toEqual([]);
  });

  test('shares its network with a session that nobody guards, which reaches nobody either', async () => {
    const ended = await baybook.app.evaluate(async ({ session }, hosts) => {
      const other = session.fromPartition('nobody-guards-it');
      const how = async (trying: Promise<unknown>) => trying.then(() => 'reached', String);
      return Promise.all(hosts.flatMap((host) => [how(other.fetch(`http://${host}/`)), how(other.resolveHost(host))]));
    }, targets());
    expect(ended.filter((how) => how === 'reached')).toEqual([]);
    expect(heard()).toEqual([]);
    expect(await attempts()).toEqual([]);
  });
});
