import { mkdirSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { findElectron, getCarriedBindingPath, getCarriedFolder } from '../../../core/runtime/find-electron.ts';
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
    find: () => findElectron(project, environment),
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
  expect(machine().find()).toBeNull();
});

test('the pinned one goes before the carried one', () => {
  const { find, putPinned, putCarried, putBinding } = machine();
  putCarried();
  putBinding('13.2.0');
  const executable = putPinned('v45.4.1');
  expect(find()).toEqual({ kind: 'pinned', version: '45.4.1', executable, sqliteBinding: null });
});

test('a pinned binary of another version than its package is passed over', () => {
  const { find, putPinned } = machine();
  putPinned('44.0.0');
  expect(find()).toBeNull();
});

test('the carried one counts only together with the SQLite binary of the installed version', () => {
  const { find, putCarried, putBinding } = machine();
  const executable = putCarried();
  expect(find()).toBeNull();
  putBinding('13.1.0');
  expect(find()).toBeNull();
  const sqliteBinding = putBinding('13.2.0');
  expect(find()).toEqual({ kind: 'carried', version: '33.2.1', executable, sqliteBinding });
});

test('the cache is where the XDG base directory specification puts it', () => {
  const usual = join(homedir(), '.cache', 'baybook', 'electron-33.2.1');
  expect(getCarriedFolder({})).toBe(usual);
  // "All paths set in these environment variables must be absolute. If [...] relative, [...] ignore it."
  expect(getCarriedFolder({ XDG_CACHE_HOME: 'cache' })).toBe(usual);
  expect(getCarriedFolder({ XDG_CACHE_HOME: '' })).toBe(usual);
  expect(getCarriedFolder({ XDG_CACHE_HOME: '/var/cache' })).toBe('/var/cache/baybook/electron-33.2.1');
});
