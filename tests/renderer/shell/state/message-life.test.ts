import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { app, setApp } from '../../../../renderer/shell/state/app-state.ts';
import { followScreens, lifeOf } from '../../../../renderer/shell/state/message-life.ts';
import { tellDone, tellTrouble } from '../../../../renderer/shell/state/messages.ts';
import { openBench } from '../../../../renderer/bench/state/bench-actions.ts';
import { openSettings, toggleGoals } from '../../../../renderer/shell/state/go-back.ts';
import { AppError } from '../../../../core/model/errors.ts';
import type { BookSwing } from '../../../../core/model/book.ts';
import { EMPTY_PAGE } from '../../../../core/model/lesson-page.ts';

const SWING: BookSwing = {
  student: { id: 'student', firstName: 'Ada', lastName: '', handedness: 'left' },
  lesson: { id: 'lesson', studentId: 'student', date: '2026-05-12', club: '', handedness: 'left', note: '' },
  swing: { id: 'swing', lessonId: 'lesson', label: 'Swing 1' },
  clips: [],
  pins: [],
  page: EMPTY_PAGE,
};
const STEP = { label: 'Go there', run: () => undefined };

describe('how long a message stays', () => {
  test('what is done goes by itself, a long sentence later than a short one, and none before it can be read', () => {
    const life = (text: string) => lifeOf({ kind: 'done', text, nextStep: null }) ?? 0;
    const [short, long] = [life('Saved.'), life('Saved six stills in the folder of the lesson. '.repeat(3))];
    expect(short).toBeGreaterThanOrEqual(5000);
    // 200 words a minute is usual reading, about 60 ms a letter; slow readers take half as long again.
    expect(long - short).toBeGreaterThanOrEqual(60 * 130);
  });

  test('one that offers a step leaves time to decide', () => {
    const [text, done] = ['Saved.', 'done'] as const;
    const [without, offered] = [null, STEP].map((nextStep) => lifeOf({ kind: done, text, nextStep }) ?? 0);
    expect((offered ?? 0) - (without ?? 0)).toBeGreaterThanOrEqual(10_000);
  });

  test('what went wrong, and a step that is offered nowhere else, waits for an answer', () => {
    expect(lifeOf({ kind: 'trouble', text: 'Not saved.', nextStep: null })).toBeNull();
    expect(lifeOf({ kind: 'trouble', text: 'Not saved.', nextStep: STEP })).toBeNull();
    expect(lifeOf({ kind: 'done', text: 'Taken out.', nextStep: { ...STEP, waits: true } })).toBeNull();
  });
});

describe('leaving a screen', () => {
  let stop: () => void;
  beforeEach(() => {
    setApp({ route: { at: 'book' }, messages: [], bench: null, swing: null });
    stop = followScreens();
  });
  afterEach(() => {
    stop();
    setApp({ messages: [] });
  });
  const text = () => app.get().messages.at(-1)?.text ?? null;

  test('takes along what was done there, with a step or without', () => {
    for (const step of [null, STEP]) {
      tellDone('Saved 6 stills.', step);
      toggleGoals();
      expect(text()).toBeNull();
    }
  });

  test('leaves a step that is offered nowhere else, until its swing is left', () => {
    setApp({ route: { at: 'sheet' }, swing: SWING });
    tellDone('What is wanted of Hands is changed.', { ...STEP, waits: true });
    toggleGoals();
    openBench('clip', 3);
    expect(text()).toBe('What is wanted of Hands is changed.');
    setApp({ route: { at: 'book' }, bench: null, swing: null });
    expect(text()).toBeNull();
  });

  test('is not what a dialog over it does', () => {
    tellDone('Saved 6 stills.');
    openSettings();
    expect(text()).toBe('Saved 6 stills.');
  });

  test('leaves trouble', () => {
    tellTrouble(new AppError('disk-full', 'The disk is full.'), STEP);
    toggleGoals();
    expect(text()).toBe('The disk is full.');
  });

  test('leaves what is told on the way, and what is told where nothing was left', () => {
    tellDone('Earlier.');
    let told = false;
    const stopTelling = app.subscribe(() => {
      if (app.get().route.at !== 'goals' || told) return;
      told = true;
      tellDone('On the way.');
    });
    toggleGoals();
    stopTelling();
    expect(text()).toBe('On the way.');
    openBench('clip', 3);
    expect(text()).toBe('On the way.');
  });
});
