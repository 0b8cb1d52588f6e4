import type { Session } from 'electron';
import { expect, test } from 'vitest';
import { Microphone } from '../../electron/microphone.ts';
import { WINDOW_ORIGIN } from '../../electron/origins.ts';

/** The answers of a session that a microphone guards; a session itself is there in Electron alone. */
function guarded() {
  const microphone = new Microphone();
  const set: { request?: unknown; check?: unknown } = {};
  const session = {
    setPermissionRequestHandler: (handler: unknown) => (set.request = handler),
    setPermissionCheckHandler: (handler: unknown) => (set.check = handler),
  };
  microphone.guard(session as unknown as Session);
  const request = set.request as Parameters<Session['setPermissionRequestHandler']>[0];
  const check = set.check as Parameters<Session['setPermissionCheckHandler']>[0];
  return {
    microphone,
    asks(permission: string, mediaTypes: readonly string[], url = `${WINDOW_ORIGIN}/index.html`): boolean {
      let given = false;
      const contents = { getURL: () => url };
      request?.(contents as never, permission as never, (answer) => (given = answer), { mediaTypes } as never);
      return given;
    },
    checks: (permission: string, mediaType: string, origin = `${WINDOW_ORIGIN}/`): boolean =>
      check?.(null, permission as never, origin, { mediaType } as never) ?? true,
  };
}

test('sound is given while a talk-through is recorded, and taken back after', () => {
  const { microphone, asks, checks } = guarded();
  expect([asks('media', ['audio']), checks('media', 'audio')]).toEqual([false, false]);
  microphone.allow(true);
  expect([asks('media', ['audio']), checks('media', 'audio')]).toEqual([true, true]);
  microphone.allow(false);
  expect([asks('media', ['audio']), checks('media', 'audio')]).toEqual([false, false]);
});

test('no camera, nothing else and no other page is given anything, also meanwhile', () => {
  const { microphone, asks, checks } = guarded();
  microphone.allow(true);
  for (const kinds of [['video'], ['audio', 'video'], []]) expect(asks('media', kinds)).toBe(false);
  for (const other of ['geolocation', 'notifications', 'display-capture', 'clipboard-read', 'midi'])
    expect([asks(other, ['audio']), checks(other, 'audio')]).toEqual([false, false]);
  for (const page of ['https://example.org/', `${WINDOW_ORIGIN}.example.org/`])
    expect([asks('media', ['audio'], page), checks('media', 'audio', page)]).toEqual([false, false]);
  expect(checks('media', 'video')).toBe(false);
});
