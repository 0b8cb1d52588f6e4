import { describe, expect, it } from 'vitest';
import { AppError } from '../../core/model/errors.ts';
import { answerFrame, type ClipProtocol } from '../../electron/clip-protocol.ts';
import { INTERNAL_SENTENCE } from '../../electron/ipc/answer.ts';

const FRAME = 'clip://frame/0b9f7c52-3a54-4a0e-9a55-6f6f2f7f1d10/3';
const png: ClipProtocol['picture'] = async () => ({ bytes: Uint8Array.of(1, 2, 3), type: 'image/png' });
const failing =
  (cause: unknown): ClipProtocol['picture'] =>
  () =>
    Promise.reject(cause);
const answer = (picture: ClipProtocol['picture'], url = FRAME, method = 'GET') =>
  answerFrame(method, url, { picture, onFault: () => undefined });

describe('the answer to the address of a frame', () => {
  it('is the picture, which the window may keep for good', async () => {
    const exact = await answer(png);
    expect(exact.status).toBe(200);
    expect(exact.headers.get('content-type')).toBe('image/png');
    expect(exact.headers.get('cache-control')).toContain('immutable');
    expect(new Uint8Array(await exact.arrayBuffer())).toEqual(Uint8Array.of(1, 2, 3));
  });

  it.each([
    ['no-such-record', 404],
    ['no-such-frame', 404],
    ['clip-moved', 500],
    ['ffmpeg-failed', 500],
  ] as const)('is %s as %d with the sentence and its code', async (code, status) => {
    const response = await answer(failing(new AppError(code, 'One sentence.')));
    const told = [response.status, response.headers.get('x-baybook-code'), await response.text()];
    expect(told).toEqual([status, code, 'One sentence.']);
  });

  it('is a calm sentence when we failed ourselves, and the cause is told to the log', async () => {
    const fault = new TypeError('x is undefined');
    const told: unknown[] = [];
    const response = await answerFrame('GET', FRAME, {
      picture: failing(fault),
      onFault: (_url, cause) => told.push(cause),
    });
    expect([response.status, await response.text()]).toEqual([500, INTERNAL_SENTENCE]);
    expect(told).toEqual([fault]);
  });

  it('is no picture for a wrong address or another method; none is made', async () => {
    const never: ClipProtocol['picture'] = () => expect.unreachable();
    expect((await answer(never, 'clip://frame/1/3')).status).toBe(404);
    expect((await answer(never, FRAME, 'POST')).status).toBe(405);
  });
});
