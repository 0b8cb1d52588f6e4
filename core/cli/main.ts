import { runCommandLine } from './run.ts';

const stop = new AbortController();
process.once('SIGINT', () => stop.abort());
process.once('SIGTERM', () => stop.abort());
// A reader that closes early (`baybook frames CLIP | head`) is no error of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

process.exitCode = await runCommandLine(process.argv.slice(2), {
  out: (line) => process.stdout.write(`${line}\n`),
  say: (line) => process.stderr.write(`${line}\n`),
  signal: stop.signal,
});
