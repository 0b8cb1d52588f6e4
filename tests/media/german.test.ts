import { execFile } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { simpleParser } from 'mailparser';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { clipPath } from '../../core/book/media.ts';
import { openBook } from '../../core/book/open-book.ts';
import { demoStory } from '../../core/demo/demo-story.ts';
import { GERMAN } from '../../core/model/german.ts';
import type { LessonPage } from '../../core/model/lesson-page.ts';
import { swingFileOf } from '../../core/swing-file/swing-file-of.ts';
import { writeSwingFile } from '../../core/swing-file/write-swing-file.ts';
import { copyDemoBook } from '../support/demo-book.ts';
import { runBaybook } from '../support/run-baybook.ts';

/** What goes to the student of a German coach: made by the command, and read by readers of others. */

const IN_GERMAN = { BAYBOOK_LANGUAGE: 'de' };
/** Words of the program that stand on every page, mail or still in English. */
const ENGLISH =
  /\b(?:What we found|What changed|Please mind|Key thoughts|Reading|Difference|changed|no change|Top|Impact)\b/;
const MONTHS = /\d (?:May|April) 2026/;

let folder: string;
const paths = { then: '', now: '' };
const page: LessonPage = demoStory().pages.now;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'baybook-german-'));
  const bookFolder = join(folder, 'book');
  await copyDemoBook(bookFolder);
  const book = openBook(bookFolder);
  try {
    const [student] = book.listStudents();
    const [now, then] = (student?.lessons ?? []).map(({ swings }) => swings[0]?.swing.id ?? '');
    book.setPage(now ?? '', page);
    for (const [name, id] of [['then', then] as const, ['now', now] as const]) {
      const swing = book.openSwing(id ?? '');
      const files = new Map<string, string>();
      for (const clip of swing.clips) files.set(clip.id, await clipPath(book, clip.id));
      paths[name] = join(folder, `${name}.json`);
      await writeSwingFile(
        paths[name],
        swingFileOf(swing, (clip) => files.get(clip.id) ?? '', folder),
      );
    }
  } finally {
    book.close();
  }
});

afterAll(() => rm(folder, { recursive: true, force: true }));

async function make(...argv: readonly string[]): Promise<void> {
  const { code, said } = await runBaybook(argv, undefined, IN_GERMAN);
  expect({ code, said }).toMatchObject({ code: 0 });
}

/** A text without what the coach typed, which stays as it is. */
function withoutTheirs(text: string): string {
  const theirs: string[] = [];
  const take = (value: unknown): void => {
    if (typeof value === 'string' && value.length > 3) theirs.push(value);
    else if (value !== null && typeof value === 'object') Object.values(value).forEach(take);
  };
  take(page);
  take(demoStory().pages.then);
  return theirs.reduce((left, own) => left.replaceAll(own, ''), text.replaceAll(/\s+/g, ' '));
}

function expectGerman(text: string): void {
  const plain = withoutTheirs(text);
  expect(plain).not.toMatch(ENGLISH);
  expect(plain).not.toMatch(MONTHS);
  expect(plain).toContain('Mai 2026');
}

describe('what goes to the student of a German coach', () => {
  test('the page as PDF says it in German, with a German title and language', async () => {
    const out = join(folder, 'lesson.pdf');
    await make('page', paths.now, '--then', paths.then, '--out', out);
    const file = await getDocument({ data: new Uint8Array(readFileSync(out)), verbosity: 0 }).promise;
    const { info } = await file.getMetadata();
    expect(info).toMatchObject({ Title: 'Robin: Golfstunde vom 12. Mai 2026', Language: 'de' });
    const pages = await Promise.all(Array.from({ length: file.numPages }, (_, index) => file.getPage(index + 1)));
    const contents = await Promise.all(pages.map((each) => each.getTextContent()));
    const text = contents.flatMap(({ items }) => items.map((item) => ('str' in item ? item.str : ''))).join(' ');
    expectGerman(text);
    for (const key of ['What we found', 'What changed', 'Please mind', 'Key thoughts'] as const)
      expect(text.replaceAll(/\s+/g, ' ')).toContain(GERMAN[key]);
    expect(text.replaceAll(/\s+/g, ' ')).toMatch(
      /Schultern zur Wirbelsäule \(Umkehrpunkt\), Down-the- ?Line: 105° ± \d+° → 90° ± \d+°/,
    );
  });

  test('the mail draft is a German letter, in text and HTML', async () => {
    const out = join(folder, 'lesson.eml');
    await make('mail', paths.now, '--then', paths.then, '--out', out);
    const mail = await simpleParser(readFileSync(out), { skipImageLinks: true });
    expect(mail.subject).toBe('Ihre Golfstunde vom 12. Mai 2026');
    expect(mail.text).toContain('Guten Tag Robin,');
    expect(mail.text).toContain('Bis bald auf der Range.');
    expect(mail.html).toContain('<html lang="de">');
    expectGerman(mail.text ?? '');
  });

  test('a still is told in German, its numbers with a decimal comma and its file under the same name as ever', async () => {
    const stills = join(folder, 'stills');
    await make('sheet', paths.now, paths.then, '--out', stills);
    const names = readdirSync(stills).filter((name) => name.endsWith('.txt'));
    expect(names.length).toBeGreaterThan(0);
    for (const name of names) {
      expect(name).toMatch(/^Robin-2026-05-12-.*(?:address|top|impact)/);
      const text = readFileSync(join(stills, name), 'utf8');
      expectGerman(text);
      expect(text).not.toMatch(/\d\.\d/);
    }
    const all = names.map((name) => readFileSync(join(stills, name), 'utf8')).join('\n');
    expect(all).toMatch(/\d,\d/);
    expect(all).toMatch(
      /vorher .*, jetzt .*, Unterschied .*, (?:geändert|keine Änderung|nicht zu sagen|einen Blick wert)\./,
    );
  });

  test('the last picture of a video says its cautions in German', async () => {
    const card = new URL('../../core/film/closing-card.ts', import.meta.url).href;
    const program = `
      const { layoutCard, FILM_CAUTIONS } = await import('${card}');
      const content = { firstName: 'Robin', thoughts: ['Own words.'], drill: null, cautions: FILM_CAUTIONS };
      const pages = layoutCard(content, 'wide', (text, font) => text.length * 20);
      process.stdout.write(JSON.stringify(pages));`;
    const env = { ...process.env, ...IN_GERMAN };
    const { stdout } = await promisify(execFile)(process.execPath, ['--input-type=module', '-e', program], { env });
    const said = stdout.replaceAll('\u00a0', ' ');
    expect(said).toContain('Schwunggedanke');
    expect(said).toContain('Own words.');
    expect(said).toContain('Trainerrat');
    expect(said).not.toContain('medical advice');
  });
});
