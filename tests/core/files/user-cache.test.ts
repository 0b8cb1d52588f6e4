import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import { userCacheFolder } from '../../../core/files/user-cache.ts';

test('what can be made anew lies where the system keeps such things, and nowhere when it is off', () => {
  const home = homedir();
  expect(userCacheFolder({}, 'linux')).toBe(join(home, '.cache', 'baybook'));
  expect(userCacheFolder({ XDG_CACHE_HOME: '/var/c' }, 'linux')).toBe('/var/c/baybook');
  // The XDG base directory specification has relative ones ignored.
  for (const XDG_CACHE_HOME of ['relative', ''])
    expect(userCacheFolder({ XDG_CACHE_HOME }, 'linux')).toBe(join(home, '.cache', 'baybook'));
  expect(userCacheFolder({}, 'darwin')).toBe(join(home, 'Library', 'Caches', 'baybook'));
  expect(userCacheFolder({ LOCALAPPDATA: resolve('/local') }, 'win32')).toBe(join(resolve('/local'), 'baybook'));
  expect(userCacheFolder({}, 'win32')).toBe(join(home, 'AppData', 'Local', 'baybook'));
  expect(userCacheFolder({ BAYBOOK_CACHE: '/own', XDG_CACHE_HOME: '/var/c' }, 'linux')).toBe('/own');
  expect(userCacheFolder({ BAYBOOK_CACHE: 'off', XDG_CACHE_HOME: '/var/c' }, 'linux')).toBeNull();
});
