// @vitest-environment jsdom
import { beginEmpty, program, show } from '../shown-view.tsx';
import { act, screen } from '@testing-library/react';
import { expect, test } from 'vitest';
import type { Student } from '../../../core/model/book.ts';
import type { ProgramFacts } from '../../../electron/ipc/contract.ts';
import { StudentForm } from '../../../renderer/book/student-form.tsx';
import { app, setApp } from '../../../renderer/shell/state/app-state.ts';

beginEmpty();

const MIA: Student = { id: 'mia', firstName: 'Mia', lastName: '', handedness: 'right' };
const FACTS = { strays: [], place: 'en-GB' } as unknown as ProgramFacts;

async function bookIsRead(student: Student): Promise<void> {
  await act(() => program.next('program/facts').answer(FACTS));
  await act(() => program.next('student/list').answer([{ student, lessons: [] }]));
}

test('says that a student is a child, and takes a change back as a whole', async () => {
  setApp({ students: [{ student: MIA, lessons: [] }], facts: FACTS });
  const { hand } = show(<StudentForm student={MIA} onClose={() => undefined} />);
  await hand.click(screen.getByRole('checkbox', { name: /^A child/ }));
  await hand.click(screen.getByRole('button', { name: 'Save' }));
  const changed = program.next('student/change');
  expect(changed.input).toEqual({ ...MIA, child: true });
  await act(() => changed.answer({ ...MIA, child: true }));
  await bookIsRead({ ...MIA, child: true });
  const [message] = app.get().messages;
  expect(message).toMatchObject({ kind: 'done', nextStep: { label: 'Undo' } });
  act(() => message?.nextStep?.run());
  const back = program.next('student/change');
  expect(back.input).toEqual(MIA);
  await act(() => back.answer(MIA));
  await bookIsRead(MIA);
  expect(app.get().students?.[0]?.student).toEqual(MIA);
});
