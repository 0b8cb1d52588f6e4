import { appendFileSync, mkdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { inspect } from 'node:util';

/** Past this many bytes the log is set aside as `.old` and begun anew; two files at most. */
const LARGEST = 1_000_000;

/**
 * A plain text file of our own faults, for a bug report. The coach sees a calm sentence; what went wrong, with its causes,
 * stands here. Stays on this machine.
 */
export class FaultLog {
  readonly path: string;

  constructor(path: string) {
    this.path = path;
  }

  /** Forgets all entries: nobody can tell which of them name somebody. @throws what the system says. */
  clear(): void {
    for (const path of [this.path, `${this.path}.old`]) rmSync(path, { force: true });
  }

  /** Adds one entry. Never throws: a full disk must not turn one fault into two. */
  write(where: string, cause: unknown): void {
    try {
      mkdirSync(dirname(this.path), { recursive: true });
      if ((statSync(this.path, { throwIfNoEntry: false })?.size ?? 0) > LARGEST)
        renameSync(this.path, `${this.path}.old`);
      appendFileSync(this.path, `${new Date().toISOString()} ${where}\n${describeFault(cause)}\n`);
    } catch (error) {
      console.error(`Baybook could not write its log: ${describeFault(error)}`);
    }
  }
}

/** An error with its stack and the chain of causes, indented; anything else as text. */
export function describeFault(cause: unknown): string {
  const lines: string[] = [];
  let next: unknown = cause;
  // Eight causes tell the story; a cause that points back at itself must not loop.
  for (let depth = 0; depth < 8 && next !== undefined; depth++) {
    const text = next instanceof Error ? (next.stack ?? `${next.name}: ${next.message}`) : textOf(next);
    lines.push(...text.split('\n').map((line) => '  '.repeat(depth + 1) + line));
    next = next instanceof Error ? next.cause : undefined;
  }
  return lines.join('\n');
}

/** What was thrown without being an error; an object by its fields, for its own text would say nothing. */
function textOf(thrown: unknown): string {
  return typeof thrown === 'string' ? thrown : inspect(thrown, { depth: 2 });
}
