import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BookSwing } from '../../../../../core/model/book.ts';
import { app, newBench, setApp, setBench } from '../../../../../renderer/shell/state/app-state.ts';
import { goTo, stepBy } from '../../../../../renderer/bench/state/bench-actions.ts';
import {
  changeSlowing,
  clearEnds,
  connectPlayback,
  loopFromHere,
  loopToHere,
  run,
  setSlowing,
  startPlayback,
  stopPlayback,
  toggleLoop,
  togglePlayback,
} from '../../../../../renderer/bench/playback/state/playback.ts';
import { onBench } from '../../../../../renderer/bench/playback/state/playback-place.ts';
import { clipIndexOf } from '../../../../support/clip-index.ts';

const CLIP = 'clip';
const REFRESH = 1000 / 60;

/** A window whose time passes by hand, and whose pictures take their time. */
class Window {
  now = 0;
  /** When each shown frame came, the first one included. */
  readonly shown: { readonly frame: number; readonly at: number }[] = [];
  /** How long a picture takes from the request to the screen, ms. */
  takes = 0;
  broken = -1;
  #callback: ((now: number) => void) | null = null;
  #wanted: { readonly frame: number; readonly at: number } = { frame: 0, at: -1e6 };

  readonly disconnect = connectPlayback({
    place: onBench,
    seen: (_clip, frame) => {
      if (frame === this.broken) return 'none';
      return this.#wanted.frame === frame && this.now >= this.#wanted.at + this.takes ? 'there' : 'coming';
    },
    atRefresh: (callback) => {
      this.#callback = callback;
      return () => {
        if (this.#callback === callback) this.#callback = null;
      };
    },
  });

  readonly #stop = app.subscribe(() => {
    const frame = app.get().bench?.index ?? -1;
    if (frame !== this.#wanted.frame) this.#wanted = { frame, at: this.now };
  });

  get isRunning(): boolean {
    return run.get().running;
  }

  /** Lets time pass, as the screen refreshes. */
  pass(ms: number): void {
    for (const end = this.now + ms; this.now < end; this.now += REFRESH) {
      const callback = this.#callback;
      this.#callback = null;
      callback?.(this.now);
      const { frame, at } = this.#wanted;
      if (this.shown.at(-1)?.frame !== frame && this.now >= at + this.takes) this.shown.push({ frame, at: this.now });
    }
  }

  frames(): number[] {
    return this.shown.map(({ frame }) => frame);
  }

  close(): void {
    this.#stop();
    this.disconnect();
  }
}

let window: Window;

function open(pts: readonly number[], den: number, at = 0): void {
  const swing = { clips: [] } as unknown as BookSwing;
  setApp({ swing, indexes: { [CLIP]: clipIndexOf(pts, den) }, bench: newBench(CLIP, at) });
}
const every = (count: number, ticks: number): number[] => Array.from({ length: count }, (_, place) => place * ticks);

beforeEach(() => {
  run.update(() => ({ running: false, slowing: 1, loops: false, every: 1, ends: {} }));
  open(every(60, 512), 15360);
  window = new Window();
});
afterEach(() => window.close());

describe('a run', () => {
  it('shows every frame in order, each as long as the file says, and stops at the end', () => {
    startPlayback();
    window.pass(1900);
    expect(window.isRunning).toBe(true);
    expect(run.get().every).toBe(1);
    window.pass(300);
    expect(window.frames()).toEqual(every(60, 1));
    expect(window.isRunning).toBe(false);
    const [first, last] = [window.shown[0], window.shown.at(-1)];
    // 59 frames of 1/30 s, give or take a refresh at both ends.
    expect(Math.abs((last?.at ?? 0) - (first?.at ?? 0) - (59 * 1000) / 30)).toBeLessThan(2 * REFRESH);
  });

  it.each([2, 4, 8] as const)('takes %d times as long at a part of the speed', (slowing) => {
    setSlowing(slowing);
    startPlayback();
    window.pass((slowing * 10 * 1000) / 30 + 2 * REFRESH);
    expect(window.frames()).toEqual(every(window.frames().length, 1));
    expect(Math.abs(window.frames().length - 11)).toBeLessThanOrEqual(1);
  });

  it('goes by the time stamps of its own, also where they differ', () => {
    open([0, 100, 200, 1000, 1100, 1200, 2000], 1000);
    startPlayback();
    window.pass(2200);
    const times = window.shown.map(({ at }) => at - (window.shown[0]?.at ?? 0));
    for (const [place, wanted] of [0, 100, 200, 1000, 1100, 1200, 2000].entries())
      expect(Math.abs((times[place] ?? -1) - wanted)).toBeLessThan(1.5 * REFRESH);
  });

  it('passes frames over evenly where the screen has fewer refreshes, and none at an eighth', () => {
    open(every(960, 64), 15360);
    startPlayback();
    window.pass(2000);
    expect(run.get().every).toBe(4);
    expect(window.frames()).toEqual(every(window.frames().length, 4));
    expect(window.frames().length).toBeGreaterThan(110);
    stopPlayback();
    goTo(0);
    window.shown.length = 0;
    setSlowing(8);
    startPlayback();
    window.pass(1000);
    expect(run.get().every).toBe(1);
    expect(window.frames()).toEqual(every(window.frames().length, 1));
  });

  it('passes over more where pictures take long, never out of order, and keeps the speed', () => {
    open(every(3000, 512), 15360);
    window.takes = 90;
    startPlayback();
    window.pass(4000);
    const [learned, from] = [run.get().every, window.shown.length];
    expect(learned).toBeGreaterThanOrEqual(3);
    window.pass(1300);
    const frames = window.frames();
    expect(frames).toEqual(frames.toSorted((a, b) => a - b));
    const [one, other] = [window.shown[from - 1], window.shown.at(-1)];
    const speed = ((other?.frame ?? 0) - (one?.frame ?? 0)) / (((other?.at ?? 1) - (one?.at ?? 0)) / 1000);
    expect(Math.abs(speed - 30)).toBeLessThan(4);
  });

  it('passes over fewer again once pictures come quickly', () => {
    open(every(6000, 512), 15360);
    window.takes = 90;
    startPlayback();
    window.pass(3000);
    window.takes = 0;
    window.pass(12_000);
    expect(run.get().every).toBe(1);
  });

  it('waits for a picture that is late, and passes none over for that alone', () => {
    startPlayback();
    window.pass(200);
    window.takes = 400;
    window.pass(400);
    window.takes = 0;
    window.pass(1500);
    expect(window.frames()).toEqual(every(window.frames().length, 1));
  });

  it('takes another speed up while it runs', () => {
    setSlowing(8);
    startPlayback();
    window.pass(600);
    changeSlowing(-1);
    changeSlowing(-1);
    changeSlowing(-1);
    changeSlowing(-1);
    expect(run.get().slowing).toBe(1);
    const before = window.shown.length;
    window.pass(500);
    expect(Math.abs(window.shown.length - before - 15)).toBeLessThanOrEqual(2);
  });
});

describe('a run ends', () => {
  const ended = (act: () => void): number => {
    startPlayback();
    window.pass(200);
    expect(window.isRunning).toBe(true);
    act();
    expect(window.isRunning).toBe(false);
    const at = app.get().bench?.index ?? -1;
    window.pass(300);
    expect(app.get().bench?.index ?? -1).toBe(at);
    return at;
  };

  it('at a step, on the frame that was stepped to', () => {
    let before = 0;
    const at = ended(() => {
      before = app.get().bench?.index ?? 0;
      stepBy(1);
    });
    expect(at).toBe(before + 1);
  });

  it('at a jump, and when its key is pressed again', () => {
    expect(ended(() => goTo(40))).toBe(40);
    ended(togglePlayback);
  });

  it('when a gesture begins, a mark changes, the bench closes, the clip is another or its frames are', () => {
    ended(() => setBench({ tool: { tool: 'line', name: 'pressing' } as never }));
    open(every(60, 512), 15360);
    ended(() => app.update((state) => ({ ...state, swing: { clips: [] } as unknown as BookSwing })));
    ended(() => setApp({ bench: newBench('other', 3) }));
    open(every(60, 512), 15360);
    ended(() => setApp({ indexes: { [CLIP]: clipIndexOf(every(59, 512), 15360) } }));
    ended(() => setApp({ bench: null }));
  });

  it('where the picture is lost', () => {
    window.broken = 7;
    startPlayback();
    window.pass(1000);
    expect(window.isRunning).toBe(false);
    expect(app.get().bench?.index).toBe(7);
  });

  it('when its window goes', () => {
    ended(() => window.disconnect());
    startPlayback();
    expect(window.isRunning).toBe(false);
  });

  it('before it begins where there is nothing to run through', () => {
    open([0], 30);
    startPlayback();
    expect(window.isRunning).toBe(false);
    setApp({ bench: null });
    startPlayback();
    expect(window.isRunning).toBe(false);
  });
});

describe('a loop', () => {
  it('of the whole clip begins again after the last frame', () => {
    open(every(10, 512), 15360, 7);
    toggleLoop();
    startPlayback();
    window.pass(700);
    expect(window.frames().slice(0, 14)).toEqual([7, 8, 9, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 0].slice(0, 14));
    expect(window.isRunning).toBe(true);
  });

  it('stays inside its span, wherever it was started', () => {
    goTo(20);
    loopFromHere();
    goTo(26);
    loopToHere();
    goTo(50);
    window.shown.length = 0;
    startPlayback();
    window.pass(1500);
    const frames = window.frames().filter((frame) => frame !== 50);
    expect(frames.length).toBeGreaterThan(20);
    expect([Math.min(...frames), Math.max(...frames)]).toEqual([20, 26]);
    expect(frames.slice(0, 8)).toEqual([20, 21, 22, 23, 24, 25, 26, 20]);
  });

  it('keeps its ends while the coach steps, and lets them go when told', () => {
    goTo(20);
    loopFromHere();
    stepBy(5);
    expect(run.get().ends[CLIP]).toEqual({ start: 20 * 512, end: null });
    clearEnds(CLIP);
    expect(run.get().ends[CLIP]).toEqual({ start: null, end: null });
    expect(run.get().loops).toBe(true);
  });

  it('that is off ends at the end of the span', () => {
    goTo(20);
    loopToHere();
    toggleLoop();
    goTo(10);
    startPlayback();
    window.pass(1000);
    expect([window.isRunning, app.get().bench?.index]).toEqual([false, 20]);
  });
});
