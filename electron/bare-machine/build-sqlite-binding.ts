import { mkdtemp, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { AppError } from '../../core/model/errors.ts';
import { describeFailure, runCommand, type CommandEnd } from '../runtime/run-command.ts';

/**
 * better-sqlite3 13 makes references to strings (Node-API 10). Electron 33 speaks Node-API 9 and lets only modules that
 * call themselves experimental do so; 2147483647 is that name (NAPI_VERSION_EXPERIMENTAL in the Node-API headers).
 */
const WRAPPER_SWITCHES = [
  '-DNAPI_VERSION=2147483647',
  '-DNODE_API_EXPERIMENTAL_HAS_POST_FINALIZER',
  '-DNAPI_DISABLE_CPP_EXCEPTIONS',
  '-DNODE_API_SWALLOW_UNTHROWABLE_EXCEPTIONS',
];

/**
 * Electron 33 runs the finalizers of experimental modules in the middle of garbage collection, where they may not call
 * back. The package's C++ wrapper puts them off when it knows `node_api_post_finalizer`, which the published headers
 * leave out because Node-API 10 no longer needs it.
 */
function wrapperSource(packageFolder: string): string {
  return `#include <node_api.h>
extern "C" napi_status node_api_post_finalizer(napi_env, napi_finalize, void* data, void* hint);
#include "${join(packageFolder, 'src', 'better_sqlite3.cpp')}"
`;
}

const WORK_FOLDER = 'sqlite-making-';
const COMPILE_LIMIT = 15 * 60_000;

/**
 * Compiles the installed better-sqlite3 for the carried Electron and puts the binary at `target` when it is whole.
 * Compiles by hand: two files, and Node-API needs no headers of a Node release, only those of `node-api-headers`.
 *
 * Throws AppError `runtime-missing` when the compiler fails.
 */
export async function buildSqliteBinding(projectFolder: string, target: string): Promise<void> {
  const packageFolder = join(projectFolder, 'node_modules', 'better-sqlite3');
  const sqliteFolder = join(packageFolder, 'deps', 'sqlite3');
  const defines = readDefines(await readFile(join(packageFolder, 'deps', 'defines.gypi'), 'utf8'));
  await removeLeftovers(dirname(target));
  const work = await mkdtemp(join(dirname(target), WORK_FOLDER));
  try {
    await writeFile(join(work, 'wrapper.cpp'), wrapperSource(packageFolder));
    const common = ['-O2', '-fPIC', '-DNDEBUG', '-fvisibility=hidden', `-I${sqliteFolder}`];
    const compiled = await Promise.all([
      compile(
        'gcc',
        ['-c', '-std=c99', '-w', ...common, ...defines, join(sqliteFolder, 'sqlite3.c')],
        work,
        'sqlite3.o',
      ),
      compile(
        'g++',
        [
          '-c',
          // c++20 under the name that g++ 10 and later all know.
          '-std=c++2a',
          '-w',
          '-fno-exceptions',
          '-fvisibility-inlines-hidden',
          ...common,
          ...WRAPPER_SWITCHES,
          `-I${join(projectFolder, 'node_modules', 'node-api-headers', 'include')}`,
          ...wrapperFolders(projectFolder).map((folder) => `-I${folder}`),
          join(work, 'wrapper.cpp'),
        ],
        work,
        'better_sqlite3.o',
      ),
    ]);
    const linked = await compile(
      'g++',
      ['-shared', '-Wl,-Bsymbolic', ...compiled, '-ldl'],
      work,
      'better_sqlite3.node',
    );
    await rename(linked, target);
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}

/** Removes what a killed earlier attempt left; the caller holds the lock. */
async function removeLeftovers(folder: string): Promise<void> {
  const names = (await readdir(folder)).filter((name) => name.startsWith(WORK_FOLDER));
  await Promise.all(names.map((name) => rm(join(folder, name), { recursive: true, force: true, maxRetries: 5 })));
}

/** The `-D` switches of SQLite that the package states in its build file, so that both builds behave the same. */
export function readDefines(buildFile: string): string[] {
  const list = /'defines':\s*\[([^\]]*)\]/.exec(buildFile)?.[1] ?? '';
  return [...list.matchAll(/'([A-Z][A-Z0-9_]*(?:=[^']*)?)'/g)].map((match) => `-D${match[1] ?? ''}`);
}

/** node-addon-api stands inside better-sqlite3 or beside it, as npm sees fit; a missing folder is ignored by g++. */
function wrapperFolders(projectFolder: string): string[] {
  const modules = join(projectFolder, 'node_modules');
  return [join(modules, 'better-sqlite3', 'node_modules', 'node-addon-api'), join(modules, 'node-addon-api')];
}

async function compile(compiler: string, args: readonly string[], work: string, name: string): Promise<string> {
  const output = join(work, name);
  const end = await runCommand(compiler, [...args, '-o', output], { timeLimit: COMPILE_LIMIT });
  if (end.exitCode !== 0) throw failed(end);
  return output;
}

function failed(end: CommandEnd): AppError {
  return new AppError(
    'runtime-missing',
    `SQLite could not be built for Electron 33.2.1 (${describeFailure(end)}); install g++ and start again.`,
    { detail: { command: end.command, exitCode: end.exitCode, timedOut: end.timedOut, errorTail: end.errorTail } },
  );
}
