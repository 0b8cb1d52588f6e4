import { describe, expect, it } from 'vitest';
import { FrameQueue } from '../../electron/frame-queue.ts';

/** Orders that end only when told to, and a list of those begun. */
function slowOrders(queue: FrameQueue<string>) {
  const begun: string[] = [];
  const finish = new Map<string, (failed?: Error) => void>();
  const ask = (name: string): Promise<string> =>
    queue.ask(name, () => {
      begun.push(name);
      return new Promise((resolve, reject) => {
        finish.set(name, (failed) => (failed === undefined ? resolve(`picture ${name}`) : reject(failed)));
      });
    });
  const end = async (name: string, failed?: Error): Promise<void> => {
    finish.get(name)?.(failed);
    await new Promise((resolve) => setTimeout(resolve));
  };
  return { begun, ask, end };
}

describe('pictures asked for', () => {
  it('are made the newest first, and all in the end', async () => {
    const { begun, ask, end } = slowOrders(new FrameQueue(1));
    const asked = ['1', '2', '3', '4'].map(ask);
    for (const name of ['1', '4', '3', '2']) await end(name);
    expect(begun).toEqual(['1', '4', '3', '2']);
    expect(await Promise.all(asked)).toEqual(['picture 1', 'picture 2', 'picture 3', 'picture 4']);
  });

  it('are made no more than so many at once', async () => {
    const { begun, ask, end } = slowOrders(new FrameQueue(2));
    ['1', '2', '3'].forEach((name) => void ask(name));
    expect(begun).toEqual(['1', '2']);
    await end('2');
    expect(begun).toEqual(['1', '2', '3']);
  });

  it('are made once when asked for twice, waiting or begun; and anew when asked for later', async () => {
    const { begun, ask, end } = slowOrders(new FrameQueue(1));
    const twice = [ask('1'), ask('1'), ask('2'), ask('2')];
    await end('1');
    await end('2');
    expect(await Promise.all(twice)).toEqual(['picture 1', 'picture 1', 'picture 2', 'picture 2']);
    void ask('1');
    expect(begun).toEqual(['1', '2', '1']);
  });

  it('do not hold up the others when one fails', async () => {
    const { ask, end } = slowOrders(new FrameQueue(1));
    const failing = ask('1');
    const next = ask('2');
    const failure = expect(failing).rejects.toThrow('damaged');
    await end('1', new Error('damaged'));
    await end('2');
    await failure;
    expect(await next).toBe('picture 2');
  });

  it('need at least one hand', () => {
    expect(() => new FrameQueue(0)).toThrow('atOnce');
    expect(() => new FrameQueue(1.5)).toThrow('atOnce');
  });
});
