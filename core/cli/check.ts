import { join } from 'node:path';
import { readSqliteVersion } from '../book/sqlite-version.ts';
import { systemTrouble } from '../files/file-trouble.ts';
import { AppError } from '../model/errors.ts';
import { findPinnedElectron, getPackageVersion, type FoundElectron } from '../runtime/find-electron.ts';
import { findFfmpeg, type Ffmpeg } from '../video/process/find-ffmpeg.ts';

/** What the program stands on, on this machine. */
export interface Facts {
  readonly node: { readonly version: string; readonly path: string };
  readonly ffmpeg: Ffmpeg | Missing;
  /** The one that package.json pins, where it has been fetched. */
  readonly electron: FoundElectron | Missing;
  readonly sqlite: { readonly version: string; readonly packageVersion: string } | Missing;
}

/** Something was not found or does not work; the sentence says what to do. */
export interface Missing {
  readonly missing: string;
}

const PROJECT_FOLDER = join(import.meta.dirname, '..', '..');

/** Looks up every fact afresh. Nothing is fetched, installed or written; what is missing is told, not thrown. */
export async function check(): Promise<Facts> {
  return {
    node: { version: process.versions.node, path: process.execPath },
    ffmpeg: await orMissing(() => findFfmpeg()),
    electron: findPinnedElectron(PROJECT_FOLDER) ?? {
      missing: 'The pinned one is not here; npm start fetches it, and takes an older one where it is out of reach.',
    },
    sqlite: await orMissing(() => ({
      version: readSqliteVersion(),
      packageVersion: getPackageVersion(PROJECT_FOLDER, 'better-sqlite3') ?? 'unknown',
    })),
  };
}

/** The facts as lines for people, one each. */
export function describeFacts(facts: Facts): string[] {
  const line = <Fact extends object>(name: string, fact: Fact | Missing, describe: (fact: Fact) => string): string =>
    `${name.padEnd(9)}${isMissing(fact) ? fact.missing : describe(fact)}`;
  return [
    line('Node', facts.node, (node) => `${node.version} (${node.path})`),
    line('ffmpeg', facts.ffmpeg, (ffmpeg) => `${ffmpeg.version} (${ffmpeg.path})`),
    ...(isMissing(facts.ffmpeg) || facts.ffmpeg.warning === null ? [] : [' '.repeat(9) + facts.ffmpeg.warning]),
    line('Electron', facts.electron, (electron) => `${electron.version}, ${electron.kind} (${electron.executable})`),
    line('SQLite', facts.sqlite, (sqlite) => `${sqlite.version} (better-sqlite3 ${sqlite.packageVersion})`),
  ];
}

export function isMissing(fact: object): fact is Missing {
  return 'missing' in fact;
}

async function orMissing<Fact>(look: () => Fact | Promise<Fact>): Promise<Fact | Missing> {
  try {
    return await look();
  } catch (thrown) {
    const error = systemTrouble(thrown);
    if (error instanceof AppError) return { missing: error.message };
    const cause = error instanceof Error ? error.message : String(error);
    return { missing: `Does not work (${cause}); run npm ci in the project folder.` };
  }
}
