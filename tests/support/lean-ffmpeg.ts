import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, realpath, rename, rm, symlink, writeFile } from 'node:fs/promises';
import { statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { grouped } from '../../core/model/grouped.ts';
import { runCommand } from '../../electron/runtime/run-command.ts';

/**
 * Debian's ffmpeg loads 215 libraries at each start: 85 ms of processor time, of which the tests start thousands. Most are
 * for speech, sound cards, drawings and networks. Here the same ffmpeg starts with one small library in the place of those,
 * whose functions all abort: 20 ms. What decodes, encodes, scales and packs is Debian's own, to the byte.
 */

const FFMPEG = '/usr/bin/ffmpeg';
const CACHE = join(import.meta.dirname, '..', '..', 'node_modules', '.cache', 'lean-ffmpeg');
/** ffmpeg's own libraries: what they need and is not kept is left out. */
const OWN = /^lib(?:avdevice|avfilter|avformat|avcodec|postproc|swresample|swscale|avutil)\.so/;
/** Coders, letters and hardware that tests do meet, and what ffmpeg calls as it starts and to tell what a file is. */
const KEPT =
  /^lib(?:x264|x265|vpx|dav1d|aom|SvtAv1Enc|mp3lame|opus|vorbis|vorbisenc|freetype|fontconfig|fribidi|bz2|lzma|z|m|c|stdc\+\+|va|va-drm|va-x11|vdpau|X11|drm|OpenCL|mfx|soxr|gnutls|gme|openmpt)\.so/;
const STAND_IN = 'liblean.so';
const LIMIT_MS = 60_000;

/** The folder of that ffmpeg, made for the one that this machine has now; null where there is none. */
export function leanFfmpegFolder(): string | null {
  const folder = placeFor(FFMPEG);
  return folder !== null && statSync(join(folder, 'ffmpeg'), { throwIfNoEntry: false }) !== undefined ? folder : null;
}

/** Makes it where Debian's ffmpeg and a compiler are; else nothing happens, for it only saves time. */
export async function makeLeanFfmpeg(say: (line: string) => void): Promise<void> {
  const place = placeFor(FFMPEG);
  if (place === null || leanFfmpegFolder() !== null) return;
  await mkdir(CACHE, { recursive: true });
  const work = await mkdtemp(join(CACHE, 'making-'));
  try {
    const leftOut = await makeIn(work, place);
    await rename(work, place);
    // What was compiled knows where it lies, and is tried only there.
    await tryOut(join(place, 'ffmpeg'));
    say(`In tests ffmpeg starts without ${String(leftOut)} of its libraries.`);
  } catch (error) {
    await rm(place, { recursive: true, force: true });
    say(`In tests ffmpeg starts with all of its libraries: ${error instanceof Error ? error.message : String(error)}`);
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}

/** Named by what goes into it: another ffmpeg, the same after an update, or with other libraries kept has another place. */
function placeFor(ffmpeg: string): string | null {
  const facts = statSync(ffmpeg, { throwIfNoEntry: false });
  if (facts === undefined) return null;
  const kept = createHash('sha256').update(KEPT.source).digest('hex').slice(0, 8);
  return join(CACHE, `${String(facts.size)}-${String(Math.round(facts.mtimeMs))}-${kept}`);
}

async function makeIn(work: string, place: string): Promise<number> {
  const paths = await librariesOf(FFMPEG);
  const needs = new Map<string, readonly string[]>();
  for (const [name, path] of paths) needs.set(name, await neededBy(path));
  const kept = reachedFrom(
    [...paths.keys()].filter((name) => KEPT.test(name)),
    needs,
  );
  const own = [...paths.keys()].filter((name) => OWN.test(name));
  const leftOut = new Set(own.flatMap((name) => needs.get(name) ?? []));
  for (const name of leftOut) if (kept.has(name) || OWN.test(name) || !paths.has(name)) leftOut.delete(name);
  const called = new Set<string>();
  for (const name of own) for (const symbol of await symbolsOf(paths.get(name), 'missing')) called.add(symbol.name);
  const standIns = new Map<string, Symbol>();
  for (const name of leftOut)
    for (const symbol of await symbolsOf(paths.get(name), 'defined'))
      if (called.has(symbol.name)) standIns.set(nameOf(symbol), symbol);

  const libraries = join(work, 'libraries');
  await mkdir(libraries);
  await writeFile(join(work, 'stand-in.c'), sourceOf([...standIns.values()]));
  await writeFile(join(work, 'stand-in.versions'), versionsOf([...standIns.values()]));
  const script = `-Wl,--version-script=${join(work, 'stand-in.versions')}`;
  const output = join(libraries, STAND_IN);
  await run('gcc', ['-w', '-fno-builtin', '-shared', '-fPIC', '-o', output, join(work, 'stand-in.c'), script]);
  // One file under many names is loaded once.
  for (const name of leftOut) await symlink(STAND_IN, join(libraries, name));
  await writeFile(join(work, 'start.c'), starter(join(place, 'libraries')));
  await run('gcc', ['-O1', '-static', '-o', join(work, 'ffmpeg'), join(work, 'start.c')]);
  return leftOut.size;
}

interface Symbol {
  /** With its version, as `name@VERSION`, where it has one. */
  readonly name: string;
  readonly isData: boolean;
  readonly bytes: number;
}

const nameOf = ({ name }: Symbol): string => name.replace(/@.*/, '');

async function librariesOf(program: string): Promise<ReadonlyMap<string, string>> {
  const found = [...(await run('ldd', [program])).matchAll(/^\s*(\S+) => (\/\S+)/gm)];
  return new Map(
    await Promise.all(found.map(async ([, name = '', path = '']) => [name, await realpath(path)] as const)),
  );
}

async function neededBy(path: string): Promise<readonly string[]> {
  return [...(await run('readelf', ['-dW', path])).matchAll(/\(NEEDED\).*\[(.*)\]/g)].map(([, name = '']) => name);
}

function reachedFrom(start: readonly string[], needs: ReadonlyMap<string, readonly string[]>): ReadonlySet<string> {
  const reached = new Set<string>();
  const open = [...start];
  for (let name = open.pop(); name !== undefined; name = open.pop()) {
    if (reached.has(name)) continue;
    reached.add(name);
    open.push(...(needs.get(name) ?? []));
  }
  return reached;
}

async function symbolsOf(path: string | undefined, which: 'missing' | 'defined'): Promise<readonly Symbol[]> {
  const option = which === 'missing' ? '--undefined-only' : '--defined-only';
  const lines = (await run('nm', ['-D', '-S', option, path ?? ''])).split('\n');
  return lines.flatMap((line) => {
    const [, size = '', kind = '', name = ''] = /^(?:[\da-f]+ ([\da-f]+)? *)? *([A-Za-z]) (\S+)$/.exec(line) ?? [];
    return name === ''
      ? []
      : [{ name: name.replace('@@', '@'), isData: /[BDRV]/.test(kind), bytes: Number.parseInt(size || '8', 16) }];
  });
}

function sourceOf(symbols: readonly Symbol[]): string {
  const lines = symbols.map((symbol) =>
    symbol.isData
      ? `char ${nameOf(symbol)}[${String(symbol.bytes)}];`
      : `void ${nameOf(symbol)}(void) { say("${nameOf(symbol)}"); }`,
  );
  const say = `#include <stdio.h>\n#include <stdlib.h>
static void say(const char *name) { fprintf(stderr, "%s was left out of this ffmpeg\\n", name); abort(); }`;
  return [say, ...lines, ''].join('\n');
}

/** Debian's libraries ask for their symbols by version. */
function versionsOf(symbols: readonly Symbol[]): string {
  const versioned = symbols.filter(({ name }) => name.includes('@'));
  return [...grouped(versioned, ({ name }) => name.replace(/^.*@/, ''))]
    .map(([version, all]) => `${version} { global: ${all.map(nameOf).join('; ')}; };\n`)
    .join('');
}

/** Becomes ffmpeg at once: same process, same arguments. */
function starter(libraries: string): string {
  return `#include <stdlib.h>\n#include <unistd.h>
int main(int count, char **words) {
  setenv("LD_LIBRARY_PATH", ${JSON.stringify(libraries)}, 1);
  execv(${JSON.stringify(FFMPEG)}, words);
  return 127;
}
`;
}

/** Its words and what it encodes are those of the whole one. */
async function tryOut(lean: string): Promise<void> {
  const clip = ['-v', 'warning', '-f', 'lavfi', '-i', 'testsrc2=size=160x120:rate=25:duration=0.4'];
  const packed = ['-c:v', 'libx264', '-pix_fmt', 'yuv420p', '-f', 'framemd5', '-'];
  for (const words of [['-version'], ['-v', 'quiet', '-filters'], [...clip, ...packed]])
    if ((await run(lean, words)) !== (await run(FFMPEG, words))) throw new Error(`${basename(lean)} answers otherwise`);
}

async function run(command: string, args: readonly string[]): Promise<string> {
  const end = await runCommand(command, args, { timeLimit: LIMIT_MS });
  if (end.exitCode !== 0) throw new Error(`${end.command.slice(0, 80)}: ${end.errorTail.slice(-200)}`);
  return end.output;
}
