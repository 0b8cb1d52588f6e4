// @vitest-environment jsdom
import { beginEmpty, program, show } from '../shown-view.tsx';
import { act, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { EMPTY_PAGE, USUAL_LIBRARY, type LessonPage } from '../../../core/model/lesson-page.ts';
import { EMPTY_GOALS } from '../../../core/measure/goals/goals.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import { sentLesson } from '../../../core/report/sent-lesson.ts';
import { Drills } from '../../../renderer/lesson-page/drills.tsx';
import { GoesOut } from '../../../renderer/lesson-page/goes-out.tsx';
import { KeyThoughts } from '../../../renderer/lesson-page/key-thoughts.tsx';
import { library } from '../../../renderer/lesson-page/state/library.ts';
import { addFinding, moveFinding } from '../../../renderer/lesson-page/state/page-actions.ts';
import { app, setApp } from '../../../renderer/shell/state/app-state.ts';
import { useStore } from '../../../renderer/shell/state/store.ts';
import { undo } from '../../../renderer/swing/state/edit-actions.ts';
import { inventedSwing } from '../../core/measure/invented-swing.ts';
import { WRITTEN } from '../controlled-program.ts';
import { swingOf } from '../sample-swing.ts';

beginEmpty();
beforeEach(() => {
  setApp({ swing: swingOf('a') });
  library.update(() => USUAL_LIBRARY);
});

// What is not written holds up whatever is saved after it.
afterEach(async () => {
  while (program.asked.some(({ name }) => name === 'edit/write'))
    await act(() => program.next('edit/write').answer(WRITTEN));
});

const page = (): LessonPage => app.get().swing?.page ?? EMPTY_PAGE;
const lesson = () => sentLesson(reportOf({ now: inventedSwing(), then: null, goals: EMPTY_GOALS }), EMPTY_PAGE, null);

function Written() {
  const { keyThoughts, drills } = useStore(app, (state) => state.swing?.page ?? EMPTY_PAGE);
  return (
    <>
      <KeyThoughts thoughts={keyThoughts} />
      <Drills drills={drills} />
    </>
  );
}

describe('the lesson page', () => {
  test('keeps what is typed at once; a field typed in a row is one step back', async () => {
    const { hand } = show(<Written />);
    await hand.type(screen.getByLabelText('Key thought 1'), 'Turn');
    await hand.type(screen.getByLabelText('Key thought 3'), 'Tall');
    expect(page().keyThoughts).toEqual(['Turn', '', 'Tall']);
    act(() => void undo());
    expect(page().keyThoughts).toEqual(['Turn']);
    act(() => void undo());
    expect(page()).toEqual(EMPTY_PAGE);
    expect(undo()).toBeNull();
  });

  test('puts a finding before another, and not beyond the ends', () => {
    const at = (checkpoint: 'top' | 'impact') =>
      ({ id: 'trail-knee', aspect: 'value', view: 'face-on', checkpoint }) as const;
    addFinding({ reading: at('top'), words: 'first' });
    addFinding({ reading: at('impact'), words: 'second' });
    const order = () => page().findings.map(({ words }) => words);
    moveFinding(1, -1);
    expect(order()).toEqual(['second', 'first']);
    moveFinding(0, -1);
    moveFinding(1, 1);
    expect(order()).toEqual(['second', 'first']);
  });

  test('takes a drill that is written once into the library and onto the page, with the usual caution', async () => {
    const { hand } = show(<Written />);
    await hand.click(screen.getByRole('button', { name: 'Write a drill' }));
    await hand.type(screen.getByLabelText('Title'), 'Feet together');
    await hand.type(screen.getByLabelText('Steps, one a line'), 'One{enter}{enter} Two ');
    await hand.click(screen.getByRole('button', { name: 'Keep and put on the page' }));
    expect(page().drills).toMatchObject([{ title: 'Feet together', steps: ['One', 'Two'] }]);
    expect(library.get().drills).toEqual(page().drills);
    expect(program.next('library/write').input).toMatchObject({ drills: page().drills });
    expect(screen.getByText(/If anything hurts, stop/)).toBeTruthy();
  });
});

describe('what goes out', () => {
  test('is nothing from an empty page, and the cautions and the consent for a child stand before it', async () => {
    const { rerender, hand } = show(<GoesOut swing={swingOf('a')} lesson={lesson()} isEmpty />);
    const draft = () => screen.getByRole('button', { name: 'Save mail draft' });
    expect(draft()).toHaveProperty('disabled', true);
    expect(screen.getByText(/consent of the child and of a parent or guardian/)).toBeTruthy();
    for (const caution of lesson().cautions) expect(screen.getByText(caution)).toBeTruthy();
    rerender(<GoesOut swing={swingOf('a')} lesson={lesson()} isEmpty={false} />);
    await hand.click(draft());
    await act(async () => Promise.resolve());
    const asked = program.next('lesson/save');
    expect(asked.input).toMatchObject({ swingId: 'a', thenSwingId: null, as: 'mail', paper: 'A4' });
    await act(() => asked.answer({ path: '/x/lesson.eml', folder: '/x', notes: ['Stills are smaller.'] }));
    expect(app.get().messages.map(({ text }) => text)).toEqual(['Saved /x/lesson.eml. Stills are smaller.']);
  });
});
