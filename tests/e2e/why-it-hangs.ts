import { readFileSync, readdirSync } from 'node:fs';
import { setTimeout as rest } from 'node:timers/promises';
import type { CDPSession } from 'playwright-core';
import type { RunningBaybook } from './launch.ts';

/** How long each question may take, and how long processes are watched, ms. */
const PATIENCE_MS = 4000;
const WATCHED_MS = 1000;

/**
 * What stands still where a step took far too long, in words for the failing test's message: whether page and program answer,
 * where the page is at work, and which processes are busy. A page is asked over `pause`, opened while it still answered.
 */
export async function whyItHangs({ app, window }: RunningBaybook, pause: CDPSession): Promise<string> {
  const within = async <Value>(asked: Promise<Value>): Promise<Value | 'no answer'> =>
    Promise.race([asked.catch(() => 'no answer' as const), rest(PATIENCE_MS, 'no answer' as const)]);
  const page = await within(window.evaluate(() => 'answers'));
  const program = await within(app.evaluate(() => 'answers'));
  const stack = page === 'answers' ? 'not asked' : await within(stackOf(pause));
  const busy = process.platform === 'linux' ? await busyProcesses(app.process().pid ?? 0) : 'not asked';
  return `The page: ${page}. The program: ${program}.\nThe page is at:\n${stack}\nBusy:\n${busy}`;
}

function stackOf(session: CDPSession): Promise<string> {
  return new Promise((resolve, reject) => {
    session.once('Debugger.paused', ({ callFrames }) => {
      const lines = callFrames.map(({ functionName, url, location }) => {
        const { lineNumber, columnNumber = 0 } = location;
        return `${functionName} ${url}:${String(lineNumber)}:${String(columnNumber)}`;
      });
      session.send('Debugger.resume').catch(reject);
      resolve(lines.join('\n'));
    });
    session.send('Debugger.pause').catch(reject);
  });
}

/** Of the program and all that it started: ticks of the processor in a second, state, and what it is. */
async function busyProcesses(root: number): Promise<string> {
  const before = ticksOfTree(root);
  await rest(WATCHED_MS);
  return [...ticksOfTree(root)]
    .map(([pid, { ticks, state, command }]) => ({ ticks: ticks - (before.get(pid)?.ticks ?? 0), state, command, pid }))
    .toSorted((one, other) => other.ticks - one.ticks)
    .map(({ pid, ticks, state, command }) => `${String(ticks)} ticks, ${state}, ${String(pid)}: ${command}`)
    .join('\n');
}

interface Facts {
  readonly ticks: number;
  readonly state: string;
  readonly command: string;
}

function ticksOfTree(root: number): ReadonlyMap<number, Facts> {
  const all = new Map<number, Facts & { readonly parent: number }>();
  for (const name of readdirSync('/proc').filter((each) => /^\d+$/.test(each))) {
    try {
      // After the name, which may hold anything: state, parent, ..., user and system ticks (proc(5): fields 3, 4, 14, 15).
      const fields = readFileSync(`/proc/${name}/stat`, 'utf8')
        .replace(/^.*\) /s, '')
        .split(' ');
      const command = readFileSync(`/proc/${name}/cmdline`, 'utf8').replaceAll('\0', ' ').slice(0, 160);
      const [state = '?', parent] = fields;
      all.set(Number(name), { parent: Number(parent), state, command, ticks: Number(fields[11]) + Number(fields[12]) });
    } catch {
      // It ended meanwhile.
    }
  }
  const tree = new Map<number, Facts>();
  for (const [pid, facts] of all)
    for (let at: number | undefined = pid; at !== undefined && at > 1; at = all.get(at)?.parent)
      if (at === root) tree.set(pid, facts);
  return tree;
}
