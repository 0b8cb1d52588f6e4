import { mkdirSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { findPinnedElectron } from '../../../core/runtime/find-electron.ts';
import {
  findCarriedElectron,
  getCarriedBindingPath,
  getCarriedFolder,
} from '../../../electron/bare-machine/find-carried.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';

const put = (path: string, text: string): void => {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
};

/** A project with the packages' facts, an empty cache, and hands to put an Electron in either. */
function machine() {
  const project = temporaryFolder();
  const environment = { XDG_CACHE_HOME: temporaryFolder() };
  const electron = join(project, 'node_modules', 'electron');
  put(join(electron, 'package.json'), '{"version": "45.4.1"}');
  put(join(project, 'node_modules', 'better-sqlite3', 'package.json'), '{"version": "13.2.0"}');
  const carried = getCarriedFolder(environment);
  return {
    findPinned: () => findPinnedElectron(project),
    findCarried: () => findCarriedElectron(project, environment),
    putPinned(version: string) {
      put(join(electron, 'path.txt'), 'electron');
      put(join(electron, 'dist', 'version'), version);
      put(join(electron, 'dist', 'electron'), '');
      return join(electron, 'dist', 'electron');
    },
    putCarried() {
      put(join(carried, 'electron'), '');
      return join(carried, 'electron');
    },
    putBinding(version: string) {
      put(getCarriedBindingPath(carried, version), '');
      return getCarriedBindingPath(carried, version);
    },
  };
}

test('nothing fetched, nothing found', () => {
  expect(machine().findPinned()).toBeNull();
  expect(machine().findCarried()).toBeNull();
});

test('the pinned one needs no other SQLite binary', () => {
  const { findPinned, findCarried, putPinned } = machine();
  const executable = putPinned('v45.4.1');
  expect(findCarried()).toBeNull();
  expect(findPinned()).toEqual({ kind: 'pinned', version: '45.4.1', executable, sqliteBinding: null });
});

test('a pinned binary of another version than its package is passed over', () => {
  const { findPinned, putPinned } = machine();
  putPinned('44.0.0');
  expect(findPinned()).toBeNull();
});

test('the carried one counts only together with the SQLite binary of the installed version', () => {
  const { findCarried, putCarried, putBinding } = machine();
  const executable = putCarried();
  expect(findCarried()).toBeNull();
  putBinding('13.1.0');
  expect(findCarried()).toBeNull();
  const sqliteBinding = putBinding('13.2.0');
  expect(findCarried()).toEqual({ kind: 'carried', version: '33.2.1', executable, sqliteBinding });
});

test('the cache is where the XDG base directory specification puts it', () => {
  const usual = join(homedir(), '.cache', 'baybook', 'electron-33.2.1');
  expect(getCarriedFolder({})).toBe(usual);
  // "All paths set in these environment variables must be absolute. If [...] relative, [...] ignore it."
  expect(getCarriedFolder({ XDG_CACHE_HOME: 'cache' })).toBe(usual);
  expect(getCarriedFolder({ XDG_CACHE_HOME: '' })).toBe(usual);
  expect(getCarriedFolder({ XDG_CACHE_HOME: '/var/cache' })).toBe('/var/cache/baybook/electron-33.2.1');
});
