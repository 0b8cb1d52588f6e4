import { readFile, readdir } from 'node:fs/promises';
import { setTimeout as rest } from 'node:timers/promises';

/** What a program with all its children takes of the machine. Linux tells it in /proc; elsewhere there is no figure. */
export interface Usage {
  /** Proportional set size of all processes together, bytes: shared pages are counted once. */
  readonly memory: number;
  /** Open file descriptors. */
  readonly handles: number;
  readonly processes: number;
}

/** Ticks of the kernel's clock of processor time a second; 100 on every Linux in use. */
const TICKS_PER_SECOND = 100;
const KB = 1024;

/** The process and everything that descends from it. Empty where there is no /proc. */
export async function listTree(root: number): Promise<readonly number[]> {
  const parents = new Map<number, number>();
  for (const name of await readdir('/proc').catch(() => [])) {
    const stat = /^\d+$/.test(name) ? await readProc(Number(name), 'stat') : null;
    if (stat !== null) parents.set(Number(name), Number(fieldsOf(stat)[1]));
  }
  const tree = parents.has(root) ? [root] : [];
  for (const parent of tree) for (const [child, of] of parents) if (of === parent) tree.push(child);
  return tree;
}

/** Null where it cannot be found out. A process that ends meanwhile is left out. */
export async function readUsage(root: number): Promise<Usage | null> {
  const tree = await listTree(root);
  let [memory, handles, processes] = [0, 0, 0];
  for (const pid of tree) {
    const kilobytes = /^Pss:\s+(\d+) kB/m.exec((await readProc(pid, 'smaps_rollup')) ?? '')?.[1];
    if (kilobytes === undefined) continue;
    memory += Number(kilobytes) * KB;
    handles += (await readdir(`/proc/${pid}/fd`).catch(() => [])).length;
    processes += 1;
  }
  return processes === 0 ? null : { memory, handles, processes };
}

/** Seconds of processor time that the tree has used. */
async function processorTime(root: number): Promise<number> {
  let ticks = 0;
  for (const pid of await listTree(root)) {
    const fields = fieldsOf((await readProc(pid, 'stat')) ?? '');
    ticks += Number(fields[11] ?? 0) + Number(fields[12] ?? 0);
  }
  return ticks / TICKS_PER_SECOND;
}

/** Waits until the program does next to nothing, at most `limit` ms. */
export async function waitForQuiet(root: number, limit = 5000): Promise<void> {
  const [look, busy] = [250, 0.03];
  const end = performance.now() + limit;
  for (let quiet = 0; quiet < 2 && performance.now() < end;) {
    const before = await processorTime(root);
    await rest(look);
    quiet = (await processorTime(root)) - before <= busy ? quiet + 1 : 0;
  }
}

/** The fields of /proc/<pid>/stat after the name, which may hold anything: state, parent, ... (proc(5)). */
function fieldsOf(stat: string): readonly string[] {
  return stat.slice(stat.lastIndexOf(')') + 2).split(' ');
}

function readProc(pid: number, name: string): Promise<string | null> {
  return readFile(`/proc/${pid}/${name}`, 'utf8').catch(() => null);
}
