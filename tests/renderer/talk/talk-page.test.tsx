// @vitest-environment jsdom
import { beginEmpty, program, show } from '../shown-view.tsx';
import { act, fireEvent, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { BookSwing } from '../../../core/model/book.ts';
import { talkLength } from '../../../core/talk/talk-time.ts';
import { app, setApp } from '../../../renderer/shell/state/app-state.ts';
import { useStore } from '../../../renderer/shell/state/store.ts';
import { HerePanel } from '../../../renderer/talk/here-panel.tsx';
import { PutRight } from '../../../renderer/talk/put-right.tsx';
import { cursor } from '../../../renderer/talk/state/cursor.ts';
import { talkFrom, talkOfSwing } from '../../../renderer/talk/state/talk.ts';
import { TalkPage } from '../../../renderer/talk/talk-page.tsx';
import { sampleTalk } from '../../core/talk/sample-talk.ts';
import { WRITTEN } from '../controlled-program.ts';
import { clipOf, indexOf, swingOf } from '../sample-swing.ts';

beginEmpty();
const RECORDED = { takes: sampleTalk().takes, thenId: null, brokenOff: null, saved: null };

function swing(): BookSwing {
  const clip = clipOf('clip', 20);
  const top = { index: 12, pts: 12, ticks: 1 };
  return swingOf('a', [{ ...clip, view: 'down-the-line', checkpoints: { top } }]);
}

beforeEach(() => {
  setApp({ swing: swing(), indexes: { clip: indexOf(20) }, route: { at: 'talk', under: { at: 'sheet' } } });
  talkOfSwing.update(() => ({ swingId: 'a', recorded: RECORDED }));
  cursor.update(() => ({ time: 0, playing: false, part: null }));
});
afterEach(async () => {
  while (program.asked.some(({ name }) => name === 'edit/write'))
    await act(() => program.next('edit/write').answer(WRITTEN));
});

const edits = () => app.get().swing?.talkEdits ?? [];

function Room() {
  const open = useStore(app, (state) => state.swing);
  const recorded = useStore(talkOfSwing, (state) => state);
  const talk = talkFrom(recorded, open);
  if (open === null || talk === null) return null;
  return (
    <>
      <PutRight talk={talk} swing={open} then={null} report={null} />
      <HerePanel talk={talk} swing={open} then={null} />
    </>
  );
}
const goTo = (time: number): void => {
  fireEvent.change(screen.getByLabelText('Time'), { target: { value: String(time) } });
};
const length = (): number => {
  const talk = talkFrom(talkOfSwing.get(), app.get().swing);
  return talk === null ? 0 : talkLength(talk);
};

describe('putting a talk-through right', () => {
  test('cuts the part that was chosen, whichever end came first, and goes on from there', async () => {
    const { hand } = show(<Room />);
    expect(screen.getByRole('button', { name: 'Cut part' })).toHaveProperty('disabled', true);
    goTo(4000);
    await hand.click(screen.getByRole('button', { name: 'Part to here' }));
    goTo(2500);
    await hand.click(screen.getByRole('button', { name: 'Part from here' }));
    await hand.click(screen.getByRole('button', { name: 'Cut part, 1.5 s' }));
    expect(edits()).toEqual([{ kind: 'cut', spans: [{ from: 2500, to: 4000 }] }]);
    expect([length(), cursor.get().time, cursor.get().part]).toEqual([8500, 2500, null]);
  });

  test('keeps a caption as one change once its field is left, and an unchanged one not at all', async () => {
    const { hand } = show(<Room />);
    goTo(2000);
    const field = () => screen.getByLabelText('Caption from here on');
    expect(field()).toHaveProperty('value', 'Here you stand well.');
    await hand.click(field());
    await hand.tab();
    expect(edits()).toEqual([]);
    await hand.clear(field());
    await hand.type(field(), 'Stand  tall.{Enter}');
    expect(edits()).toEqual([{ kind: 'caption', at: 2000, text: 'Stand tall.' }]);
  });

  test('puts another frame in the place of the one that is shown', async () => {
    const { hand } = show(<Room />);
    goTo(1500);
    await hand.click(screen.getByRole('button', { name: '+1, one frame on, down the line' }));
    await hand.selectOptions(screen.getByLabelText('Frame, down the line'), 'Top');
    expect(edits()).toMatchObject([
      { kind: 'swap-frame', at: 1500, pane: 0, frame: { index: 2 } },
      { kind: 'swap-frame', at: 1500, pane: 0, frame: { index: 12 } },
    ]);
  });

  test('moves a drawing by keys and removes it', async () => {
    const { hand } = show(<Room />);
    goTo(2500);
    const name = screen.getByRole('button', { name: 'Line: arrow keys move it' });
    fireEvent.keyDown(name, { key: 'ArrowRight' });
    expect(edits()).toMatchObject([{ kind: 'move-drawing', shape: { a: { x: 12, y: 0 }, b: { x: 17, y: 100 } } }]);
    await hand.click(screen.getByRole('button', { name: 'Remove drawing: Line' }));
    expect(screen.queryByRole('button', { name: 'Remove drawing: Line' })).toBeNull();
  });
});

describe('the page of a talk-through', () => {
  test('says what belongs there before anything is recorded, and what is missing before there is a clip', async () => {
    talkOfSwing.update(() => ({ swingId: 'a', recorded: null }));
    const { rerender } = show(<TalkPage swing={swing()} />);
    expect(screen.getByRole('button', { name: 'Record' })).toBeDefined();
    rerender(<TalkPage swing={swingOf('a')} />);
    expect(screen.getByRole('button', { name: 'Go to the lesson sheet' })).toBeDefined();
  });

  test('offers a part that was cut short, from where it was said anew', () => {
    talkOfSwing.update(() => ({ swingId: 'a', recorded: { ...RECORDED, brokenOff: { take: 1, from: 65_000 } } }));
    show(<TalkPage swing={swing()} />);
    expect(screen.getByRole('note').textContent).toMatch(/^A recording from 1:05 on was cut short/);
  });
});
