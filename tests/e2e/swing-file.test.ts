import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { BookSwing } from '../../core/model/book.ts';
import type { SwingFile } from '../../core/model/swing-file.ts';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { answerDialogs, ask } from './page-hands.ts';

/** A swing goes out of the window as a file and comes in again; the window remembers what a swing is compared with. */
describe('a swing as a file', () => {
  let demo: DemoProgram;
  let page: Page;
  let file: string;
  let before: readonly BookSwing[];

  beforeAll(async () => {
    demo = await openDemoProgram('swing-file');
    page = demo.page;
    file = join(demo.folder, 'robin.json');
    before = await Promise.all([demo.ids.now, demo.ids.then].map((id) => ask(page, 'swing/open', { id })));
  });
  afterAll(() => demo.close());

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
  const picker = (): Locator => page.getByLabel(/Compare with an earlier swing/);
  const dialog = (): Locator => page.getByRole('dialog', { name: 'Import a swing' });
  const answer = (path: string): Promise<void> => answerDialogs(demo.program.app, path);
  const picture = async (name: string): Promise<void> => {
    const folder = process.env['BAYBOOK_PICTURES'];
    if (folder !== undefined) await demo.program.screenshot(join(folder, `${name}.png`));
  };
  /** What it says, without what belongs to its place in the book. */
  const said = ({ clips, pins, lesson }: BookSwing) => ({
    ...{ pins, lesson },
    clips: clips.map(({ view, sha256, captureRate, checkpoints, marks }) => ({
      ...{ view, sha256, captureRate, checkpoints },
      marks: marks.map((each) => ({ ...each, shapes: each.shapes.map((shape) => ({ ...shape, id: '' })) })),
    })),
  });
  async function newest(): Promise<BookSwing> {
    const students = await ask(page, 'student/list', null);
    const known = before.map(({ swing }) => swing.id);
    const ids = students.flatMap(({ lessons }) => lessons.flatMap(({ swings }) => swings.map(({ swing }) => swing.id)));
    const [id] = ids.filter((each) => !known.includes(each));
    if (id === undefined) throw new Error('no swing came in');
    return ask(page, 'swing/open', { id });
  }

  test('what it is compared with is remembered over a visit to the list, and over a restart', async () => {
    await demo.openSwing();
    await picker().selectOption({ index: 1 });
    await page
      .getByText(/can't tell|no change|changed|worth a look/)
      .first()
      .waitFor();
    await button('Students').click();
    await demo.openSwing();
    await expect.poll(() => picker().inputValue(), { timeout: 60_000 }).toBe(demo.ids.then);
    await demo.restart();
    page = demo.page;
    await demo.openSwing();
    await expect.poll(() => picker().inputValue(), { timeout: 60_000 }).toBe(demo.ids.then);
    await picker().selectOption({ index: 0 });
    await button('Students').click();
    await demo.openSwing();
    await button('Save stills').waitFor();
    expect(await picker().inputValue()).toBe('');
  });

  test('comes in as one more swing of the lesson it is from; the others stay as they were', async () => {
    await answer(file);
    await button('Export swing').click();
    await page.getByText(/^Wrote the swing to /).waitFor();
    await button('Students').click();
    await button('Import a swing').click();
    await dialog()
      .getByText(/^Robin, .* nothing that is in the book is changed\.$/)
      .waitFor();
    expect(
      await dialog()
        .getByText(/is not where the file says/)
        .count(),
    ).toBe(0);
    await picture('import-found');
    await dialog().getByRole('button', { name: 'Import the swing' }).click();
    await page.getByRole('heading', { name: /Swing 2$/ }).waitFor({ timeout: 60_000 });
    const came = await newest();
    expect(said(came)).toEqual(said(before[0] ?? came));
    expect(came.swing.label).toBe('Swing 2');
    // Beside the other swing of the lesson there is the new one now.
    for (const each of before)
      expect({ ...(await ask(page, 'swing/open', { id: each.swing.id })), besides: undefined }).toEqual(each);
    await ask(page, 'bin/move', { kind: 'swing', id: came.swing.id });
  });

  test('asks for a clip that is not where the file says, refuses another one, and takes it for a new student', async () => {
    // As on another computer: the file came by mail, its clips lie elsewhere under other names.
    const content = JSON.parse(await readFile(file, 'utf8')) as SwingFile;
    const elsewhere = join(demo.folder, 'from the mail');
    await mkdir(elsewhere);
    const clips = content.clips.map((clip) => ({ ...clip, file: `clips/${clip.view}.mp4` }));
    const moved = { ...content, student: { firstName: 'Alex' }, clips };
    const [line, face] = ['down-the-line', 'face-on'].map(
      (view) => content.clips.find((clip) => clip.view === view)?.file,
    );
    if (line === undefined || face === undefined) throw new Error('the swing file names no two clips');
    await writeFile(join(elsewhere, 'alex.json'), JSON.stringify(moved));
    await answer(join(elsewhere, 'alex.json'));
    await page.reload();
    await button('Import a swing').click();
    await dialog()
      .getByText(/down-the-line\.mp4 is not where the file says\. Choose it, or this view is left out\./)
      .waitFor();
    const doIt = dialog().getByRole('button', { name: 'Import the swing' });
    expect(await doIt.isDisabled()).toBe(true);
    expect(await dialog().getByLabel('Whose swing is it?').locator('option:checked').innerText()).toBe(
      'A new student, Alex',
    );
    await picture('import-missing');

    await answer(resolve(demo.folder, face));
    await dialog().getByRole('button', { name: 'Choose the clip, down the line' }).click();
    await doIt.click();
    await dialog()
      .getByRole('alert')
      .getByText(/is not the clip this swing was marked on: its content differs/)
      .waitFor();
    await picture('import-refused');
    expect(await ask(page, 'student/list', null)).toHaveLength(1);

    await answer(resolve(demo.folder, line));
    await dialog().getByRole('button', { name: 'Choose the clip, down the line' }).click();
    await doIt.click();
    await button('Save stills').waitFor({ timeout: 60_000 });
    const came = await newest();
    expect([came.student.firstName, came.clips.map(({ view }) => view)]).toEqual(['Alex', ['down-the-line']]);
    expect(said(came).clips).toEqual(said(before[0] ?? came).clips.filter(({ view }) => view === 'down-the-line'));
  });

  test.each([
    ['a list of things to buy', 'eggs, tees', /is not JSON, so it is no swing file/],
    ['another file of the program', '{"format":"baybook-pattern","version":1}', /^This is not a swing file: /],
    ['one of a newer program', '{"format":"baybook-swing","version":99}', /Update Baybook to open it\.$/],
    ['nothing', '', /is empty\.$/],
  ])('%s is refused with a sentence', async (_, text, sentence) => {
    const path = join(demo.folder, 'wrong.json');
    await writeFile(`${path}.new`, text);
    await rename(`${path}.new`, path);
    await answer(path);
    await page.reload();
    await button('Import a swing').click();
    await page.getByRole('alert').getByText(sentence).waitFor();
    expect(await dialog().count()).toBe(0);
    await rm(path);
  });
});
