import { closeSync, fstatSync, openSync, readSync, statSync } from 'node:fs';
import type { Stats } from 'node:fs';
import { answerOrders } from './standing-process.ts';
import type { FileFacts, ProbeAnswer, ProbeOrder, StandingKind } from './file-probe.ts';

/**
 * Entry of a process of its own that looks at one file after the other, and waits for disks in the place of the program:
 * a file whose `open` never returns holds up nothing but this process, which can be ended or left behind.
 */

answerOrders(look);

function look({ path, headBytes }: ProbeOrder): ProbeAnswer {
  try {
    // Before it is opened: opening a pipe waits for another program, and opening a device may set it going.
    const kind = kindOf(statSync(path));
    return kind === 'file' ? { type: 'file', facts: readFacts(path, headBytes) } : { type: 'other', kind };
  } catch (error) {
    if (error instanceof Error && 'code' in error && typeof error.code === 'string')
      return { type: 'refused', code: error.code };
    throw error;
  }
}

function kindOf(facts: Stats): StandingKind {
  if (facts.isFile()) return 'file';
  if (facts.isDirectory()) return 'folder';
  if (facts.isFIFO()) return 'pipe';
  return facts.isSocket() ? 'socket' : 'device';
}

function readFacts(path: string, headBytes: number): FileFacts {
  const file = openSync(path, 'r');
  try {
    const { size, mtimeMs, blocks } = fstatSync(file);
    const head = new Uint8Array(Math.min(headBytes, size));
    let read = 0;
    while (read < head.length) {
      const more = readSync(file, head, read, head.length - read, read);
      if (more === 0) break;
      read += more;
    }
    // POSIX counts blocks of 512 bytes whatever the disk's own are; 0 for a file with a content is no answer.
    const heldBytes = process.platform === 'win32' || blocks === 0 ? null : blocks * 512;
    return { bytes: size, modifiedMs: mtimeMs, heldBytes, head: head.subarray(0, read) };
  } finally {
    closeSync(file);
  }
}
