import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { TalkEvent } from '../../../core/model/talk.ts';
import { AppError } from '../../../core/model/errors.ts';
import type { RequestName } from '../../../electron/ipc/contract.ts';
import { app, setApp } from '../../../renderer/shell/state/app-state.ts';
import { emptyHistory } from '../../../renderer/swing/state/history.ts';
import {
  connectRecording,
  recording,
  recordWithoutSound,
  startRecording,
  stopRecording,
  togglePause,
} from '../../../renderer/talk/state/recording.ts';
import type { ScreenNow } from '../../../renderer/talk/state/take-log.ts';
import { pane } from '../../core/talk/sample-talk.ts';
import { controlProgram, WRITTEN } from '../controlled-program.ts';
import { swingOf } from '../sample-swing.ts';

/** A recording on a machine that has no sound at all: what is shown is recorded, by the computer's clock. */

const NOTHING_DRAWN: ReadonlySet<string> = new Set();
let screen: ScreenNow;
let changed: (now: number) => void = () => undefined;
let asked: { readonly name: RequestName; readonly input: unknown }[] = [];
let refusal: AppError | null = null;

beforeEach(() => {
  vi.useFakeTimers();
  [asked, refusal] = [[], null];
  controlProgram((name, input) => {
    asked.push({ name, input });
    if (name === 'talk/append' && refusal !== null) {
      const { code, message, detail } = refusal;
      return Promise.resolve({ ok: false, error: { code, message, detail } });
    }
    const value = name === 'talk/begin' ? { take: 4 } : name === 'edit/write' ? WRITTEN : null;
    return Promise.resolve({ ok: true, value });
  });
  setApp({ swing: swingOf('a'), then: null, messages: [], history: emptyHistory() });
  screen = { panes: [pane(0)], drawings: [], points: [], marks: { shown: true, readings: [] }, pointer: null };
  connectRecording({
    screen: () => screen,
    follow(listener) {
      changed = listener;
      return () => (changed = () => undefined);
    },
  });
});
afterEach(async () => {
  refusal = null;
  await stopRecording();
  vi.useRealTimers();
});

const show = (index: number): void => {
  screen = { ...screen, panes: [pane(index)] };
  changed(performance.now());
};
/** What was handed over to be kept, and takes it off. */
function kept(): readonly { events: readonly TalkEvent[]; time: number | null }[] {
  const all = asked.filter(({ name }) => name === 'talk/append');
  asked = asked.filter(({ name }) => name !== 'talk/append');
  return all.map(({ input }) => input as { events: readonly TalkEvent[]; time: number | null });
}
const names = (): readonly RequestName[] => asked.map(({ name }) => name);

async function recordOn(from: number | null): Promise<void> {
  await startRecording({ from, drawn: NOTHING_DRAWN });
  void recordWithoutSound();
  await vi.advanceTimersByTimeAsync(3000);
  expect(recording.get().stage).toBe('recording');
  asked = [];
}

describe('a recording', () => {
  test('without a microphone asks first, and takes the right to listen back', async () => {
    await startRecording({ from: null, drawn: NOTHING_DRAWN });
    expect(asked).toEqual([
      { name: 'talk/microphone', input: { open: true } },
      { name: 'talk/microphone', input: { open: false } },
    ]);
    expect(recording.get()).toMatchObject({ stage: 'silent', level: null });
    expect(app.get().messages[0]?.text).toMatch(/record without sound/);
  });

  test('counts in for three seconds, and hands over what is shown as it happens', async () => {
    await recordOn(null);
    await vi.advanceTimersByTimeAsync(500);
    show(7);
    await vi.advanceTimersByTimeAsync(100);
    const handed = kept();
    const events = handed.flatMap((each) => each.events);
    expect(events[0]).toMatchObject({ at: 0, kind: 'show' });
    expect(events.at(-1)).toMatchObject({ at: 500, kind: 'frame', frame: { index: 7 } });
    expect(handed.at(-1)?.time).toBe(600);
  });

  test('stands still while it is paused: what is shown meanwhile is there once it goes on', async () => {
    await recordOn(null);
    await vi.advanceTimersByTimeAsync(1000);
    kept();
    togglePause();
    await vi.advanceTimersByTimeAsync(5000);
    show(3);
    show(9);
    expect(kept().flatMap(({ events }) => events)).toEqual([]);
    togglePause();
    await vi.advanceTimersByTimeAsync(400);
    const handed = kept();
    expect(handed.flatMap((each) => each.events)).toMatchObject([{ at: 1000, kind: 'frame', frame: { index: 9 } }]);
    expect(handed.at(-1)?.time).toBe(1400);
  });

  test('of a part that is said anew is in the book before it counts as ended', async () => {
    await recordOn(2500);
    await vi.advanceTimersByTimeAsync(300);
    expect(await stopRecording()).toBe(true);
    expect(names().filter((name) => name !== 'talk/append')).toEqual(['edit/write', 'talk/end']);
    expect(app.get().swing?.talkEdits).toEqual([{ kind: 'retake', from: 2500, take: 4 }]);
    expect(recording.get().stage).toBe('off');
  });

  test('of a part that is said anew on a swing that was left meanwhile is offered later, and is no edit of another', async () => {
    await recordOn(2500);
    await vi.advanceTimersByTimeAsync(300);
    setApp({ swing: swingOf('b') });
    await stopRecording();
    expect(asked.at(-1)).toEqual({ name: 'talk/end', input: { whole: false } });
    expect(names()).not.toContain('edit/write');
  });

  test('ends where it cannot be kept, with a sentence', async () => {
    await recordOn(null);
    refusal = new AppError('disk-full', 'The disk is full.');
    await vi.advanceTimersByTimeAsync(300);
    expect(recording.get().stage).toBe('off');
    const [said] = app.get().messages.map(({ text }) => text);
    expect(said).toMatch(/^The disk is full\. .*What you said until then is kept/);
  });

  test('that is called off before it begins leaves nothing', async () => {
    await startRecording({ from: null, drawn: NOTHING_DRAWN });
    asked = [];
    expect(await stopRecording()).toBe(false);
    expect([names(), recording.get().stage]).toEqual([[], 'off']);
  });
});
