import { createHash } from 'node:crypto';
import { cp, mkdir, readdir, readFile, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { clipPath } from '../../core/book/media.ts';
import { openBook } from '../../core/book/open-book.ts';
import type { Book } from '../../core/book/open-book.ts';
import { makeDemo } from '../../core/jobs/make-demo.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import { clearEarlier, madeOnce } from './made-once.ts';

const PROJECT = join(import.meta.dirname, '..', '..');
const CACHE = join(PROJECT, 'node_modules', '.cache', 'baybook-demo-book');
/** Folders of core that the makers of the demo and its copies may import: nothing that measures, compares or paints stills. */
const CORE = ['model', 'time', 'geometry', 'parse', 'files', 'scene', 'video', 'demo', 'book', 'jobs'];
/** All that the demo is made by or kept in. */
const MAKERS = [
  ...CORE.map((folder) => `core/${folder}`),
  ...['resources/demo-scenario.json', 'package-lock.json', 'tests/support/demo-book.ts'],
];

/**
 * Puts a demo book of its own at `folder`, and the proxies of its clips at `proxyFolder`. The demo takes a minute to paint,
 * so it is made once for the sources as they are and copied from then on.
 */
export async function copyDemoBook(folder: string, proxyFolder: string | null = null): Promise<void> {
  const ffmpeg = await findFfmpeg();
  const made = join(CACHE, `${await hashOf(MAKERS)}-${ffmpeg.version.replaceAll(/[^\w.-]/g, '_')}`);
  await madeOnce(made, make);
  await cp(join(made, 'book'), folder, { recursive: true });
  if (proxyFolder !== null) await cp(join(made, 'proxies'), proxyFolder, { recursive: true });
}

async function make(work: string): Promise<void> {
  await clearEarlier(work.replace(/\.making$/, ''));
  const clipsFolder = join(work, 'clips');
  await mkdir(clipsFolder);
  const book = openBook(join(work, 'book'));
  const run = { signal: new AbortController().signal, report: () => undefined };
  const ffmpeg = await findFfmpeg();
  await makeDemo(book, { clipsFolder, ffmpeg }, run);
  await makeProxies(book, join(work, 'proxies'), ffmpeg);
  book.close();
  await rm(clipsFolder, { recursive: true });
}

/** As the program makes them when a clip is first looked at. */
async function makeProxies(book: Book, folder: string, ffmpeg: Ffmpeg): Promise<void> {
  const store = new ProxyStore(folder);
  const swings = book.listStudents().flatMap(({ lessons }) => lessons.flatMap((lesson) => lesson.swings));
  for (const { swing } of swings)
    for (const { id, sha256 } of book.openSwing(swing.id).clips) {
      const proxy = await store.open({ sha256, index: book.clipIndex(id) });
      const source = { path: await clipPath(book, id), ffmpeg };
      await store.build(proxy, source, { signal: new AbortController().signal });
      await proxy.release();
    }
}

async function hashOf(paths: readonly string[]): Promise<string> {
  const hash = createHash('sha256');
  for (const path of paths) await addTo(hash, join(PROJECT, path));
  return hash.digest('hex').slice(0, 16);
}

async function addTo(hash: ReturnType<typeof createHash>, path: string): Promise<void> {
  const facts = await stat(path);
  if (facts.isDirectory()) {
    for (const name of (await readdir(path)).toSorted()) await addTo(hash, join(path, name));
    return;
  }
  hash.update(path.slice(PROJECT.length));
  hash.update(await readFile(path));
}
