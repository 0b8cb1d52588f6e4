import { describe, expect, it } from 'vitest';
import { CLOTHES } from '../../../core/demo/clothes.ts';
import { demoScenario } from '../../../core/demo/demo-scenario.ts';
import { framePainter } from '../../../core/demo/frame-painter.ts';
import { paintedFrames } from '../../../core/demo/paint-thread.ts';
import type { PaintWork } from '../../../core/demo/paint-thread.ts';

/** Ten frames in which the player stands still at first and swings then. */
function work(): PaintWork {
  const scenario = demoScenario('now');
  const [first = 0] = scenario.keyFrames;
  const keyFrames = scenario.keyFrames.map((frame) => 4 + (frame - first) / 10);
  return { scenario: { ...scenario, keyFrames, frameCount: 10 }, view: 'face-on', clothes: CLOTHES.now };
}

async function all(frames: AsyncIterable<Uint8Array>): Promise<readonly Uint8Array[]> {
  const got: Uint8Array[] = [];
  for await (const frame of frames) got.push(frame);
  return got;
}

describe('the thread that paints a clip', () => {
  it('hands over every frame as it is painted without one, in order', async () => {
    const { scenario, view, clothes } = work();
    const paint = framePainter(scenario, view, clothes);
    const frames = await all(paintedFrames(work(), undefined));
    expect(frames).toHaveLength(10);
    for (const [place, frame] of frames.entries())
      expect(Buffer.compare(frame, paint(place)), `frame ${String(place)}`).toBe(0);
    // The first four are alike, the last ones are not.
    expect(frames[1]).toBe(frames[0]);
    expect(frames[9]).not.toEqual(frames[8]);
  });

  it('stops when it is told to, also before it began', async () => {
    const stop = new AbortController();
    const frames = paintedFrames(work(), stop.signal);
    await frames.next();
    stop.abort();
    await expect(all(frames)).rejects.toMatchObject({ code: 'cancelled' });
    await expect(all(paintedFrames(work(), stop.signal))).rejects.toMatchObject({ code: 'cancelled' });
  });

  it('ends with whoever wants no more of it', async () => {
    const threads = (): number => process.getActiveResourcesInfo().filter((name) => name === 'MessagePort').length;
    const before = threads();
    for await (const frame of paintedFrames(work(), undefined)) {
      expect(frame.length).toBe(1440 * 1080 * 4);
      expect(threads()).toBeGreaterThan(before);
      break;
    }
    await expect.poll(threads).toBe(before);
  });

  it('tells of a scene that cannot be painted', async () => {
    const { scenario, ...rest } = work();
    const broken = { ...rest, scenario: { ...scenario, cameras: {} as typeof scenario.cameras } };
    await expect(all(paintedFrames(broken, undefined))).rejects.toThrow(Error);
  });
});
