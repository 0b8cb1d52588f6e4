import { runCommandLine } from '../../../core/cli/run.ts';

/** Runs one command as it is typed: its exit code, what it prints, and what it says beside that. */
export async function baybook(...argv: string[]): Promise<{ code: number; out: string; said: string[] }> {
  const out: string[] = [];
  const said: string[] = [];
  const code = await runCommandLine(argv, {
    out: (line) => out.push(line),
    say: (line) => said.push(line),
    signal: new AbortController().signal,
  });
  return { code, out: out.join('\n'), said };
}
