import { LANGUAGE } from '../model/language.ts';
import PDFDocument from 'pdfkit';
import { say } from '../model/say.ts';
import { SKETCH_HEIGHT, type Drill } from '../model/lesson-page.ts';
import { sentences } from '../report/letter.ts';
import type { SentLesson } from '../report/sent-lesson.ts';
import { fontFiles } from './fonts.ts';
import type { PagePicture } from './page-picture.ts';

export const PAPERS = ['A4', 'Letter'] as const;
export type Paper = (typeof PAPERS)[number];

export interface PdfOrder {
  readonly lesson: SentLesson;
  /** In the order they are numbered in. */
  readonly pictures: readonly PagePicture[];
  readonly paper: Paper;
  /** When it was made; kept in the file. */
  readonly made: Date;
}

/** Points (1/72 inch). */
const MARGIN = 48;
const GAP = 16;
const SIZES = { small: 9, text: 10.5, heading: 13, headline: 20 } as const;
const INK = '#1f2421';
const QUIET = '#59615c';
const RULE = '#c9cec9';
/** Two pictures side by side; one alone is no wider than this part of the page. */
const ALONE = 0.6;
const SKETCH_WIDTH = 170;

/**
 * The lesson page as a PDF: text that can be selected, embedded fonts, and tags with title, language and alt texts for whoever
 * hears it read (PDF 1.7, ISO 32000-1, 14.8).
 * @throws AppError `runtime-missing` (type face).
 */
export async function writePdf(order: PdfOrder): Promise<Uint8Array> {
  const page = new PageSetter(order);
  page.set(order.lesson, order.pictures);
  return page.end();
}

type Doc = InstanceType<typeof PDFDocument>;
type Tags = ReturnType<Doc['struct']>;

/** Sets one page after the other; each method sets one thing and tags it. */
class PageSetter {
  readonly #doc: Doc;
  readonly #body: Tags;
  readonly #bytes: Promise<Uint8Array>;
  readonly #title: string;

  constructor({ lesson, paper, made }: PdfOrder) {
    const files = fontFiles();
    this.#title = plain(lesson.title);
    this.#doc = new PDFDocument({
      ...{ size: paper === 'A4' ? 'A4' : 'LETTER', margin: MARGIN, bufferPages: true, pdfVersion: '1.7' },
      ...{ tagged: true, lang: LANGUAGE, displayTitle: true, font: files.regular },
      info: { Title: this.#title, Subject: say`Golf lesson`, Creator: 'Baybook', CreationDate: made, ModDate: made },
    });
    const chunks: Buffer[] = [];
    this.#bytes = new Promise((resolve, reject) => {
      this.#doc.on('data', (chunk: Buffer) => chunks.push(chunk));
      this.#doc.on('end', () => resolve(Buffer.concat(chunks)));
      this.#doc.on('error', reject);
    });
    this.#doc.registerFont('regular', files.regular).registerFont('strong', files.strong);
    this.#body = this.#doc.struct('Document');
    this.#doc.addStructure(this.#body);
  }

  set(lesson: SentLesson, pictures: readonly PagePicture[]): void {
    const { asked, findings, changes, others, keyThoughts, drills, filmNext, cautions } = lesson;
    this.#line('P', `${lesson.title}, ${lesson.club}`, { size: SIZES.text, colour: QUIET });
    this.#line('H1', lesson.headline, { size: SIZES.headline, font: 'strong' });
    if (asked !== null && asked.findings.length > 0) {
      this.#heading(say`What we asked for on ${asked.date}`);
      this.#list(asked.findings.map(({ label, words, outcome }) => sentences([`${label}: ${outcome}`, words])));
    }
    this.#pictures(pictures);
    if (findings.length > 0) {
      this.#heading(say`What we found`);
      this.#list(
        findings.map(({ label, number, goal, change, words, reading }) => {
          const shown = pictures.findIndex(
            ({ view, checkpoint }) => view === reading.view && checkpoint === reading.checkpoint,
          );
          const facts = [number, goal].filter((fact) => fact !== null).join(', ');
          const where = shown < 0 ? '' : say` (picture ${String(shown + 1)})`;
          return sentences([
            `${label}${facts === '' ? '' : `: ${facts}`}${where}`,
            words,
            change === null ? '' : say`Since then: ${change}`,
          ]);
        }),
        true,
      );
    }
    if (changes.length > 0 || others !== null) {
      this.#heading(say`What changed`);
      this.#table(
        [say`Reading`, say`Then`, say`Now`, say`Difference`, ''],
        changes.map(({ label, then, now, difference, verdict }) => [label, then, now, difference, verdict]),
      );
      if (others !== null) this.#line('P', others);
    }
    if (keyThoughts.length > 0) {
      this.#heading(say`Key thoughts`);
      this.#list(keyThoughts, true);
    }
    for (const drill of drills) this.#drill(drill);
    const film = [filmNext.what, filmNext.how].filter((part) => part.trim() !== '');
    if (film.length > 0) {
      this.#heading(say`Film for next time`);
      for (const part of film) this.#line('P', part);
    }
    this.#heading(say`Please mind`);
    this.#list(cautions);
  }

  end(): Promise<Uint8Array> {
    this.#body.end();
    this.#feet();
    this.#doc.end();
    return this.#bytes;
  }

  get #width(): number {
    return this.#doc.page.width - 2 * MARGIN;
  }

  /** Begins a new page where less than `height` points are left. */
  #need(height: number): void {
    if (this.#doc.y + height > this.#doc.page.height - MARGIN) this.#doc.addPage();
  }

  #line(
    tag: 'P' | 'H1' | 'H2',
    text: string,
    look: { readonly size?: number; readonly font?: 'regular' | 'strong'; readonly colour?: string } = {},
  ): void {
    const doc = this.#doc;
    this.#body.add(
      doc.struct(tag, {}, () => {
        this.#font(look.font ?? 'regular', look.size ?? SIZES.text, look.colour ?? INK);
        doc.text(plain(text), MARGIN, doc.y, { width: this.#width });
      }),
    );
    doc.y += 4;
  }

  #heading(text: string): void {
    // With two lines below it: a heading alone at the foot of a page tells nothing.
    this.#need(64);
    this.#doc.y += 10;
    this.#line('H2', text, { size: SIZES.heading, font: 'strong' });
  }

  #list(items: readonly string[], numbered = false): void {
    const doc = this.#doc;
    const list = doc.struct('L');
    this.#body.add(list);
    for (const [index, item] of items.entries()) {
      this.#need(16);
      const entry = doc.struct('LI');
      list.add(entry);
      const top = doc.y;
      this.#font('regular', SIZES.text, INK);
      entry.add(
        doc.struct('Lbl', {}, () => {
          doc.text(numbered ? `${String(index + 1)}.` : '\u2022', MARGIN, top, { width: 16, lineBreak: false });
        }),
      );
      entry.add(
        doc.struct('LBody', {}, () => {
          doc.text(plain(item), MARGIN + 18, top, { width: this.#width - 18 });
        }),
      );
      entry.end();
      doc.y += 3;
    }
    list.end();
  }

  /** Two side by side, each with its number. */
  #pictures(pictures: readonly PagePicture[]): void {
    const doc = this.#doc;
    const wide = pictures.length === 1 ? this.#width * ALONE : (this.#width - GAP) / 2;
    doc.y += 8;
    for (let first = 0; first < pictures.length; first += 2) {
      const row = pictures.slice(first, first + 2).map((picture) => ({
        ...picture,
        shownHeight: (wide * picture.height) / picture.width,
      }));
      const height = Math.max(...row.map(({ shownHeight }) => shownHeight));
      this.#need(height + 20);
      const top = doc.y;
      for (const [place, { bytes, alt }] of row.entries()) {
        const left = MARGIN + place * (wide + GAP);
        this.#body.add(
          doc.struct('Figure', { alt: plain(alt) }, () => {
            doc.image(Buffer.from(bytes), left, top + 14, { width: wide });
          }),
        );
        this.#body.add(
          doc.struct('Caption', {}, () => {
            this.#font('regular', SIZES.small, QUIET);
            doc.text(say`Picture ${String(first + place + 1)}`, left, top, { width: wide, lineBreak: false });
          }),
        );
      }
      doc.y = top + height + 22;
    }
  }

  #table(head: readonly string[], rows: readonly (readonly string[])[]): void {
    if (rows.length === 0) return;
    const doc = this.#doc;
    const parts = [0.4, 0.16, 0.16, 0.16, 0.12];
    const table = doc.struct('Table');
    this.#body.add(table);
    for (const [number, cells] of [head, ...rows].entries()) {
      const isHead = number === 0;
      this.#font(isHead ? 'strong' : 'regular', SIZES.small, isHead ? QUIET : INK);
      const widths = parts.map((part) => part * this.#width - 6);
      const height = Math.max(
        ...cells.map((cell, index) => doc.heightOfString(plain(cell), { width: widths[index] ?? 0 })),
      );
      this.#need(height + 8);
      const top = doc.y;
      const row = doc.struct('TR');
      table.add(row);
      let left = MARGIN;
      for (const [index, cell] of cells.entries()) {
        const [x, width] = [left, widths[index] ?? 0];
        row.add(
          doc.struct(isHead ? 'TH' : 'TD', {}, () => {
            this.#font(isHead || index === 4 ? 'strong' : 'regular', SIZES.small, isHead ? QUIET : INK);
            doc.text(plain(cell), x, top, { width });
          }),
        );
        left += (parts[index] ?? 0) * this.#width;
      }
      row.end();
      this.#rule(top + height + 3);
      doc.y = top + height + 7;
    }
    table.end();
  }

  #drill({ title, steps, counts, caution, sketch }: Drill): void {
    const doc = this.#doc;
    const sketchHeight = SKETCH_WIDTH * SKETCH_HEIGHT;
    if (sketch.length > 0) this.#need(sketchHeight + 70);
    this.#heading(say`Drill: ${title}`);
    if (sketch.length > 0) {
      const top = doc.y;
      this.#body.add(
        doc.struct('Figure', { alt: plain(say`Sketch of the drill ${title}`) }, () => {
          doc.save().lineWidth(1.5).strokeColor(INK).lineCap('round').lineJoin('round');
          for (const stroke of sketch)
            for (const [index, { x, y }] of stroke.entries()) {
              const place = [MARGIN + x * SKETCH_WIDTH, top + y * SKETCH_WIDTH] as const;
              if (index === 0) doc.moveTo(...place);
              // A dot is a line of no length with round ends.
              if (index > 0 || stroke.length === 1) doc.lineTo(...place);
            }
          doc.stroke().restore();
        }),
      );
      doc.y = top + sketchHeight + 8;
    }
    if (steps.length > 0) this.#list(steps, true);
    if (counts.trim() !== '') this.#line('P', counts, { font: 'strong' });
    if (caution.trim() !== '') this.#line('P', caution);
  }

  /** Whose page it is, at the foot of each; no part of what is read aloud. */
  #feet(): void {
    const doc = this.#doc;
    const { start, count } = doc.bufferedPageRange();
    for (let index = start; index < start + count; index += 1) {
      doc.switchToPage(index);
      // Text below the margin would begin a new page.
      doc.page.margins.bottom = 0;
      doc.markContent('Artifact', { type: 'Pagination' });
      this.#font('regular', SIZES.small, QUIET);
      const text = say`${this.#title}, page ${String(index - start + 1)} of ${String(count)}`;
      doc.text(text, MARGIN, doc.page.height - MARGIN + 16, { width: this.#width, lineBreak: false });
      doc.endMarkedContent();
    }
  }

  #rule(y: number): void {
    const doc = this.#doc;
    doc.markContent('Artifact', { type: 'Layout' });
    doc.save().lineWidth(0.5).strokeColor(RULE);
    doc
      .moveTo(MARGIN, y)
      .lineTo(MARGIN + this.#width, y)
      .stroke()
      .restore();
    doc.endMarkedContent();
  }

  #font(font: 'regular' | 'strong', size: number, colour: string): void {
    this.#doc.font(font).fontSize(size).fillColor(colour);
  }
}

/** The type face has no glyphs for the signs that keep a name's direction to itself. */
function plain(text: string): string {
  return text.replaceAll(/[\u2066-\u2069]/g, '');
}
