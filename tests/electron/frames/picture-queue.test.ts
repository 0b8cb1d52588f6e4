import { describe, expect, it } from 'vitest';
import { PictureQueue } from '../../../electron/frames/picture-queue.ts';

/** Orders that end only when told to, and a list of those begun. */
function slowOrders(queue: PictureQueue) {
  const begun: string[] = [];
  const finish = new Map<string, (failed?: Error) => void>();
  const ask = (name: string, order: { urgent?: boolean; signal?: AbortSignal } = {}): Promise<string> => {
    const { urgent = false, signal = new AbortController().signal } = order;
    return queue.ask({ urgent, signal }, () => {
      begun.push(name);
      return new Promise((resolve, reject) => {
        finish.set(name, (failed) => (failed === undefined ? resolve(`picture ${name}`) : reject(failed)));
      });
    });
  };
  const end = async (name: string, failed?: Error): Promise<void> => {
    finish.get(name)?.(failed);
    await new Promise((resolve) => setTimeout(resolve));
  };
  return { begun, ask, end };
}

describe('pictures asked for', () => {
  it('are made in order, urgent ones before the others, and all in the end', async () => {
    const { begun, ask, end } = slowOrders(new PictureQueue(1));
    const asked = [ask('1'), ask('2'), ask('3', { urgent: true }), ask('4'), ask('5', { urgent: true })];
    for (const name of ['1', '3', '5', '2', '4']) await end(name);
    expect(begun).toEqual(['1', '3', '5', '2', '4']);
    expect(await Promise.all(asked)).toEqual(['1', '2', '3', '4', '5'].map((name) => `picture ${name}`));
  });

  it('are made no more than so many at once', async () => {
    const { begun, ask, end } = slowOrders(new PictureQueue(2));
    ['1', '2', '3'].forEach((name) => void ask(name));
    expect(begun).toEqual(['1', '2']);
    await end('2');
    expect(begun).toEqual(['1', '2', '3']);
  });

  it('are not made when they are called off before or while they wait, and that is told at once', async () => {
    const { begun, ask, end } = slowOrders(new PictureQueue(1));
    const control = new AbortController();
    void ask('1');
    const calledOff = expect(ask('2', { signal: control.signal })).rejects.toMatchObject({ code: 'cancelled' });
    const next = ask('3');
    control.abort();
    await calledOff;
    await expect(ask('4', { signal: control.signal })).rejects.toMatchObject({ code: 'cancelled' });
    await end('1');
    await end('3');
    expect(await next).toBe('picture 3');
    expect(begun).toEqual(['1', '3']);
  });

  it('do not hold up the others when one fails', async () => {
    const { ask, end } = slowOrders(new PictureQueue(1));
    const failure = expect(ask('1')).rejects.toThrow('damaged');
    const next = ask('2');
    await end('1', new Error('damaged'));
    await end('2');
    await failure;
    expect(await next).toBe('picture 2');
  });

  it('need at least one hand', () => {
    expect(() => new PictureQueue(0)).toThrow('atOnce');
    expect(() => new PictureQueue(1.5)).toThrow('atOnce');
  });
});
