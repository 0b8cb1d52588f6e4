// @vitest-environment jsdom
import { beginEmpty, program, show } from '../shown-view.tsx';
import { act, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { BookSwing } from '../../../core/model/book.ts';
import { AppError } from '../../../core/model/errors.ts';
import type { RequestName } from '../../../electron/ipc/contract.ts';
import { saveLesson } from '../../../renderer/lesson-page/state/page-actions.ts';
import { app, setApp } from '../../../renderer/shell/state/app-state.ts';
import { useStore } from '../../../renderer/shell/state/store.ts';
import { copyStill, copyStillText } from '../../../renderer/sheet/state/copy-actions.ts';
import { exportSwing, saveStills } from '../../../renderer/sheet/state/send-actions.ts';
import { ConsentDialog, ConsentNote } from '../../../renderer/swing/consent.tsx';
import { undo } from '../../../renderer/swing/state/edit-actions.ts';
import { recordTalk, saveTalk } from '../../../renderer/talk/state/talk.ts';
import { WRITTEN } from '../controlled-program.ts';
import { swingOf } from '../sample-swing.ts';

beginEmpty();

const childs = (): BookSwing => {
  const swing = swingOf('a');
  return { ...swing, student: { ...swing.student, child: true } };
};
beforeEach(() => setApp({ swing: childs() }));
afterEach(async () => {
  while (program.asked.some(({ name }) => name === 'edit/write'))
    await act(() => program.next('edit/write').answer(WRITTEN));
});

const STOPPED = new AppError('cancelled', 'Stopped here.');
const HERE = { view: 'face-on', checkpoint: 'top' } as const;
const STILLS: Parameters<typeof saveStills>[0] = {
  ...{ swingId: 'a', thenSwingId: null, checkpoints: ['top'], views: ['face-on'] },
  ...{ layout: 'phone', format: 'jpeg', width: 1080 },
};

/** Every way by which something of a lesson is saved or goes out, with what it asks of the program in the end. */
const ROADS: readonly (readonly [name: string, go: () => Promise<unknown>, asks: RequestName])[] = [
  ['stills', () => saveStills(STILLS), 'stills/save'],
  ['a copied still', () => copyStill(HERE), 'stills/copy'],
  ['its text', () => copyStillText(HERE), 'stills/copy-text'],
  ['a swing file', () => exportSwing('a'), 'swing/export'],
  ['the mail', () => saveLesson('mail', 'A4'), 'lesson/save'],
  ['the PDF', () => saveLesson('pdf', 'A4'), 'lesson/save'],
  ['the numbers', () => saveLesson('csv', 'A4'), 'lesson/save'],
  ['the video', () => saveTalk('wide', false), 'talk/save'],
  ['a recording', () => recordTalk(), 'talk/read'],
];

const settle = () => act(async () => new Promise((resolve) => setTimeout(resolve)));
const names = (): readonly string[] => program.asked.map(({ name }) => name);

function Note() {
  const swing = useStore(app, (state) => state.swing);
  return swing === null ? null : <ConsentNote swing={swing} />;
}

describe('of a child’s lesson', () => {
  test.each(ROADS)('nothing goes out before the coach says that consent is given: %s', async (_name, go, asks) => {
    const { hand } = show(<ConsentDialog />);
    void go();
    await settle();
    expect(names()).toEqual([]);
    await hand.click(screen.getByRole('button', { name: 'Not now' }));
    await settle();
    expect([names(), app.get().swing?.lesson.consent]).toEqual([[], undefined]);
    void go().catch(() => undefined);
    await settle();
    await hand.click(screen.getByRole('button', { name: 'Consent is given' }));
    await settle();
    const kept = program.next('edit/write');
    expect(kept.input).toMatchObject({ does: 'make', edit: { kind: 'consent', swingId: 'a', after: true } });
    expect(names()).not.toContain(asks);
    await act(() => kept.answer(WRITTEN));
    await settle();
    const asked = program.next(asks);
    await act(() => asked.refuse(STOPPED));
    await settle();
    expect(screen.queryByRole('dialog')).toBeNull();
  });

  test('the answer is asked for once a lesson, can be undone, and taken back where it stands', async () => {
    const { hand } = show(
      <>
        <Note />
        <ConsentDialog />
      </>,
    );
    await hand.click(screen.getByRole('button', { name: 'Consent is given' }));
    expect(screen.getByText('Consent is given for this lesson.')).toBeTruthy();
    await act(() => program.next('edit/write').answer(WRITTEN));
    void saveLesson('pdf', 'A4').catch(() => undefined);
    await settle();
    expect(screen.queryByRole('dialog')).toBeNull();
    await act(() => program.next('lesson/save').refuse(STOPPED));
    act(() => void undo());
    expect(screen.getByText(/a parent or guardian must agree/)).toBeTruthy();
    await hand.click(screen.getByRole('button', { name: 'Consent is given' }));
    await hand.click(screen.getByRole('button', { name: 'Take consent back' }));
    expect(app.get().swing?.lesson).toEqual(childs().lesson);
  });
});

test('of who is no child nothing is asked', async () => {
  setApp({ swing: swingOf('a') });
  show(<ConsentDialog />);
  void saveLesson('pdf', 'A4').catch(() => undefined);
  await settle();
  expect(names()).toEqual(['lesson/save']);
  await act(() => program.next('lesson/save').refuse(STOPPED));
});

test('an answer to a question about another swing is none', async () => {
  const { hand } = show(<ConsentDialog />);
  void exportSwing('a');
  await settle();
  act(() => setApp({ swing: { ...childs(), ...{ swing: { id: 'b', lessonId: 'of b', label: 'b' } } } }));
  await hand.click(screen.getByRole('button', { name: 'Consent is given' }));
  await settle();
  expect([names(), app.get().swing?.lesson.consent]).toEqual([[], undefined]);
});
