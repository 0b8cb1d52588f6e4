import { expect, it, onTestFinished } from 'vitest';
import { launchBaybook } from './launch.ts';
import { ask } from './page-hands.ts';

/** As long as the book takes them, and without a place to break. */
const LONG = { firstName: 'Annabella'.repeat(8), lastName: 'Featherstone'.repeat(6), club: 'iron'.repeat(20) };

it('the longest names widen neither the list nor the head, and no button leaves the window', async () => {
  const baybook = await launchBaybook({ width: 1280, height: 720 });
  onTestFinished(() => baybook.close());
  const { window: page } = baybook;
  const { firstName, lastName, club } = LONG;
  const { id: studentId } = await ask(page, 'student/add', { firstName, lastName, handedness: 'right' });
  const facts = { studentId, date: '2026-05-12', club, handedness: 'right', note: '' } as const;
  const { id: lessonId } = await ask(page, 'lesson/add', facts);
  await ask(page, 'swing/add', { lessonId, label: 'Swing 1' });
  await page.reload();

  /** What goes past the right edge of what it lies in, by the words on it. */
  const widened = () =>
    page.evaluate(() => {
      const past = [...document.querySelectorAll('button')].filter(
        (each) => each.getBoundingClientRect().right > innerWidth,
      );
      const scrolled = [...document.querySelectorAll('main, main *')].filter(
        (each) => each.scrollWidth > each.clientWidth && getComputedStyle(each).overflowX === 'auto',
      );
      return [...past, ...scrolled].map((each) => (each.textContent ?? '').slice(0, 60));
    });
  const swing = page.getByRole('button', { name: /Swing 1/ }).first();
  await swing.waitFor();
  expect(await widened()).toEqual([]);
  await swing.click();
  await page.getByRole('button', { name: 'Add a clip, face on' }).waitFor();
  expect(await widened()).toEqual([]);
});
