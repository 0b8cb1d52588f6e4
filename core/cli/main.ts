import { placeOfSystem, writeDaysAs } from '../model/day-in-words.ts';
import { runCommandLine } from './run.ts';

writeDaysAs(placeOfSystem(process.env, Intl.DateTimeFormat().resolvedOptions().locale));

const stop = new AbortController();
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => stop.abort());
// Started by an older Node in its place (baybook.mjs), which may be ended without a word.
process.once('disconnect', () => stop.abort());
process.channel?.unref();
// A reader that closes early (`baybook frames CLIP | head`) is no error of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

process.exitCode = await runCommandLine(process.argv.slice(2), {
  out: (line) => process.stdout.write(`${line}\n`),
  say: (line) => process.stderr.write(`${line}\n`),
  signal: stop.signal,
});
