// @vitest-environment jsdom
import { beginEmpty, program, show } from '../../shown-view.tsx';
import { fireEvent, screen } from '@testing-library/react';
import { beforeEach, describe, expect, test } from 'vitest';
import { FlagOnStrip } from '../../../../renderer/bench/playback/flag-on-strip.tsx';
import { frameOnStrip, placeOnStrip } from '../../../../renderer/bench/playback/flags.ts';
import type { Flag } from '../../../../renderer/bench/playback/flags.ts';
import { app, newBench, setApp } from '../../../../renderer/shell/state/app-state.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';

beginEmpty();

const WIDTH = 316;
const COUNT = 101;
/** 3 CSS pixels a frame, from 8 on. */
const placed = (frame: number): number => 8 + 3 * frame;
const top = { index: 50, pts: 50, ticks: 1 };
const frame = { index: 50, pts: 50 };
const marks = [{ frame, points: { ball: { x: 1, y: 1, hidden: false } }, shapes: [] }];
const clip = { ...clipOf('x', COUNT), checkpoints: { top }, marks };
const flag: Flag = { checkpoint: 'top', left: placed(50), from: 'middle', text: 'Top', row: 0 };

function shown() {
  setApp({
    ...{ route: { at: 'bench' }, swing: swingOf('a', [clip]), indexes: { x: indexOf(COUNT) } },
    bench: newBench('x', 10),
  });
  // Nothing is laid out here: the strip begins at 0.
  const stripRef = { current: document.body };
  return show(<FlagOnStrip {...{ clip, flag, stripRef }} index={indexOf(COUNT)} width={WIDTH} here={false} />);
}

beforeEach(() => {
  Element.prototype.setPointerCapture = () => undefined;
});

const button = () => screen.getByRole('button', { name: /^Top, frame/ });
const topOf = () => app.get().swing?.clips[0]?.checkpoints.top?.index;
/** There are no pointer events in here: a mouse's have the same places. */
const pointer = (type: string, clientX = 0) =>
  fireEvent(button(), new MouseEvent(type, { bubbles: true, button: 0, clientX }));
const press = (x: number) => pointer('pointerdown', x);
const move = (x: number) => pointer('pointermove', x);
const letGo = () => {
  pointer('pointerup');
  fireEvent.click(button());
};

test('places and frames of the strip are each other turned round, and end at its ends', () => {
  for (const each of [0, 1, 50, 99, 100]) expect(frameOnStrip(placeOnStrip(each, 100, WIDTH), 100, WIDTH)).toBe(each);
  expect([frameOnStrip(-50, 100, WIDTH), frameOnStrip(5000, 100, WIDTH), frameOnStrip(3, 0, WIDTH)]).toEqual([
    0, 100, 0,
  ]);
});

describe('a named frame on the strip', () => {
  test('that is pressed is gone to, also by a hand that trembles', () => {
    shown();
    press(placed(50));
    move(placed(51));
    letGo();
    expect([app.get().bench?.index, topOf()]).toEqual([50, 50]);
  });

  test('that is dragged names another frame as one edit, and says where the marks are', () => {
    shown();
    press(placed(50));
    move(placed(55));
    expect([app.get().bench?.index, topOf()]).toEqual([55, 50]);
    move(placed(60));
    letGo();
    expect([app.get().bench?.index, topOf()]).toEqual([60, 60]);
    expect(app.get().history.done).toHaveLength(1);
    expect(program.next('edit/write').input).toMatchObject({
      does: 'make',
      edit: { kind: 'checkpoint', checkpoint: 'top' },
    });
    const [message] = app.get().messages;
    expect(message?.text).toBe('Top is now frame 60. Your marks are still on frame 50.');
    message?.nextStep?.run();
    expect(app.get().swing?.clips[0]?.marks.map((each) => each.frame.index)).toEqual([50, 60]);
  });

  test('that is dragged beyond the end is the last frame', () => {
    shown();
    press(placed(50));
    move(9999);
    letGo();
    expect(topOf()).toBe(100);
  });

  test('is left where it was by Esc, and where the system takes the pointer away', () => {
    for (const stop of ['Escape', 'cancel'] as const) {
      const { unmount } = shown();
      press(placed(50));
      move(placed(70));
      if (stop === 'Escape') fireEvent.keyDown(button(), { key: 'Escape' });
      else pointer('pointercancel');
      letGo();
      expect([app.get().bench?.index, topOf(), app.get().history.done.length]).toEqual([10, 50, 0]);
      unmount();
    }
  });

  test('shows its picture where the pointer rests', () => {
    const { container } = shown();
    expect(container.querySelector('[data-place="still"]')).toBeNull();
    fireEvent.pointerEnter(button());
    expect(container.querySelector('[data-place="still"]')).not.toBeNull();
    fireEvent.pointerLeave(button());
    expect(container.querySelector('[data-place="still"]')).toBeNull();
  });
});
