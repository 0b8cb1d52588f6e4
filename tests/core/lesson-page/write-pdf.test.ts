import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, test } from 'vitest';
import { PAPERS, writePdf } from '../../../core/lesson-page/write-pdf.ts';
import { EMPTY_PAGE } from '../../../core/model/lesson-page.ts';
import { lessonOf, noisyPictures, readPage } from './sample-lesson.ts';

const MADE = new Date('2026-05-12T10:00:00Z');
/** Points, as ISO 216 and ANSI have them, to the nearest point. */
const SIZES = { A4: [595, 842], Letter: [612, 792] } as const;

async function pdfOf(paper: (typeof PAPERS)[number], lesson = lessonOf(), pictures = 4) {
  const bytes = await writePdf({ lesson, pictures: await noisyPictures(pictures, 300), paper, made: MADE });
  // The reader takes the bytes it is given.
  const file = await getDocument({ data: new Uint8Array(bytes), verbosity: 0, useSystemFonts: false }).promise;
  const pages = await Promise.all(Array.from({ length: file.numPages }, async (_, index) => file.getPage(index + 1)));
  const texts = await Promise.all(
    pages.map(async (page) => {
      const { items } = await page.getTextContent();
      return items.map((item) => ('str' in item ? item.str : '')).join(' ');
    }),
  );
  return { bytes, file, pages, text: texts.join('\n').replaceAll(/\s+/g, ' '), texts };
}

interface Node {
  readonly role?: string;
  readonly alt?: string;
  readonly children?: readonly Node[];
}
const nodesOf = (node: Node | null): readonly Node[] =>
  node === null ? [] : [node, ...(node.children ?? []).flatMap(nodesOf)];

describe.each(PAPERS)('the lesson page as PDF on %s, read by an independent reader', (paper) => {
  test('says all that the lesson says, as text, with title and language, on pages of that size', async () => {
    const lesson = lessonOf();
    const { file, pages, text, bytes } = await pdfOf(paper, lesson);
    const [change] = lesson.changes;
    for (const said of [
      ...[lesson.headline, 'Zo\u00eb', 'What we found', 'Turn, then swing.', 'Feet together', 'Swing to half.'],
      ...['3 times 10', 'On a flat place.', 'Three swings with the 7 iron', 'Too flat for the spine'],
      ...(change === undefined ? [] : [change.label, change.difference]),
      ...lesson.cautions,
    ])
      expect(text).toContain(said.replaceAll(/\s+/g, ' '));
    const { info } = await file.getMetadata();
    expect(info).toMatchObject({ Title: 'Zo\u00eb: lesson of 12 May 2026', Language: 'en', PDFFormatVersion: '1.7' });
    for (const page of pages) {
      const [, , width = 0, height = 0] = page.view;
      expect([Math.round(width), Math.round(height)]).toEqual(SIZES[paper]);
    }
    expect(bytes.length).toBeLessThan(5_000_000);
  });

  test('is tagged: one first heading, headings, lists, and each picture with its text', async () => {
    const { file, pages, bytes } = await pdfOf(paper);
    const marked: unknown = await file.getMarkInfo();
    expect(marked instanceof Map ? marked.get('Marked') : marked).toBe(true);
    const trees = await Promise.all(pages.map((page) => page.getStructTree() as Promise<Node | null>));
    const nodes = trees.flatMap(nodesOf);
    const count = (role: string) => nodes.filter((node) => node.role === role).length;
    expect(count('H1')).toBe(1);
    for (const role of ['H2', 'P', 'L', 'LI', 'LBody']) expect(count(role), role).toBeGreaterThan(1);
    const figures = nodes.filter(({ role }) => role === 'Figure');
    // Four stills and the sketch of the drill.
    expect(figures).toHaveLength(5);
    for (const { alt } of figures) expect(alt).toMatch(/trail knee 150\u00b0 \u00b1 3\u00b0|Sketch of the drill/);
    // Each font has its own program within the file.
    const raw = Buffer.from(bytes).toString('latin1');
    expect(raw.match(/\/FontFile2? /g)?.length).toBe(2);
    expect(raw.match(/\/BaseFont \/[A-Z]{6}\+\w/g)?.length).toBeGreaterThanOrEqual(2);
  });
});

test('a long lesson goes over pages, and each says whose it is and which of how many', async () => {
  const page = readPage();
  const long = {
    ...page,
    findings: Array.from({ length: 40 }, () => page.findings[0]).filter((one) => one !== undefined),
  };
  const { texts } = await pdfOf('A4', lessonOf(long), 8);
  expect(texts.length).toBeGreaterThan(2);
  for (const [index, text] of texts.entries())
    expect(text.replaceAll(/\s+/g, ' ')).toContain(`page ${String(index + 1)} of ${String(texts.length)}`);
});

test('an empty page still has its title and its cautions', async () => {
  const lesson = lessonOf(EMPTY_PAGE);
  const { text } = await pdfOf('A4', lesson, 0);
  for (const caution of lesson.cautions) expect(text).toContain(caution);
});
