import { expect, test } from 'vitest';
import { chooseElectronEnvironment, chooseElectronOptions } from '../../../electron/runtime/launch-options.ts';

const pinned = { kind: 'pinned', version: '45.4.1', executable: '/e', sqliteBinding: null } as const;
const carried = { kind: 'carried', version: '33.2.1', executable: '/c', sqliteBinding: '/c/sqlite.node' } as const;

test('the sandbox stays on for everyone but root, the graphics device is used where there is one', () => {
  const user = { platform: 'linux', root: false, graphicsDevice: true } as const;
  expect(chooseElectronOptions(user)).toEqual([]);
  expect(chooseElectronOptions({ ...user, root: true })).toEqual(['--no-sandbox']);
  expect(chooseElectronOptions({ ...user, graphicsDevice: false })).toEqual(['--disable-gpu']);
  expect(chooseElectronOptions({ platform: 'darwin', root: true, graphicsDevice: false })).toEqual([]);
});

test('the SQLite binary goes with the Electron it was made for, and with no other', () => {
  expect(chooseElectronEnvironment(carried, { HOME: '/h' })).toEqual({
    HOME: '/h',
    BAYBOOK_SQLITE_BINDING: '/c/sqlite.node',
  });
  expect(chooseElectronEnvironment(pinned, { HOME: '/h', BAYBOOK_SQLITE_BINDING: '/c/sqlite.node' })).toEqual({
    HOME: '/h',
  });
});

test('Electron is never asked to act as plain Node', () => {
  expect(chooseElectronEnvironment(pinned, { ELECTRON_RUN_AS_NODE: '1', EMPTY: undefined })).toEqual({});
});
