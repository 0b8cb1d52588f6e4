import { readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/model/errors.ts';
import { answer, INTERNAL_SENTENCE, type Handlers } from '../../../electron/ipc/answer.ts';
import { REQUEST_NAMES } from '../../../electron/ipc/parse-request.ts';

/** Handlers that all fail with `fault`, but for those given. */
function handlersBut(given: Partial<Handlers>, fault: unknown = new Error('not in this test')): Handlers {
  const failing = Object.fromEntries(REQUEST_NAMES.map((name) => [name, () => Promise.reject(fault)]));
  return Object.assign(failing as Partial<Handlers>, given) as Handlers;
}

describe('an answer', () => {
  it('is the value of the handler, given the parsed input', async () => {
    const handlers = handlersBut({ 'job/cancel': ({ jobId }) => (expect(jobId).toBe('a'), null) });
    expect(await answer(handlers, 'job/cancel', { jobId: 'a' }, () => undefined)).toEqual({ ok: true, value: null });
  });

  it('is an error as data when the handler has a sentence for people', async () => {
    const full = new AppError('disk-full', 'The disk is full.', { detail: { free: 0 }, cause: new Error('ENOSPC') });
    expect(await answer(handlersBut({}, full), 'student/list', null, () => undefined)).toEqual({
      ok: false,
      error: { code: 'disk-full', message: 'The disk is full.', detail: { free: 0 } },
    });
  });

  it('is a calm sentence when we failed ourselves, and the cause goes to the log only', async () => {
    const fault = new TypeError('x is not a function');
    const logged: unknown[] = [];
    const outcome = await answer(handlersBut({}, fault), 'student/list', null, (name, cause) =>
      logged.push(name, cause),
    );
    expect(outcome).toEqual({ ok: false, error: { code: 'internal', message: INTERNAL_SENTENCE, detail: {} } });
    expect(logged).toEqual(['student/list', fault]);
  });

  it('is a sentence where the system refused a file, and its own words go to the log only', async () => {
    const fault = await readFile(import.meta.dirname).catch((error: unknown) => error);
    const logged: unknown[] = [];
    const outcome = await answer(handlersBut({}, fault), 'student/list', null, (name, cause) =>
      logged.push(name, cause),
    );
    const message = 'This path is a folder, not a file. Choose a file in it.';
    const detail = { path: null, code: 'EISDIR' };
    expect(outcome).toEqual({ ok: false, error: { code: 'file-unreadable', message, detail } });
    expect(logged).toEqual(['student/list', fault]);
  });

  it('is an error as data for a request that is unknown or wrong; no handler hears of it', async () => {
    const handlers = handlersBut({ 'job/cancel': () => expect.unreachable() });
    for (const [name, input] of [
      ['job/start', null],
      ['__proto__', null],
      [null, null],
      ['job/cancel', { jobId: 7 }],
    ])
      expect(await answer(handlers, name, input, () => undefined)).toMatchObject({
        ok: false,
        error: { code: 'bad-request' },
      });
  });
});
