import { PLACEHOLDERS, PLACEHOLDER_NAMES } from '../model/lesson-page.ts';
import { LANGUAGE } from '../model/language.ts';
import { say } from '../model/say.ts';
import type { LetterTemplate, Placeholder } from '../model/lesson-page.ts';
import type { SentFinding, SentLesson } from './sent-lesson.ts';

/** One picture that goes along. */
export interface LetterPicture {
  /** What it shows, with its numbers, for whoever cannot see it. */
  readonly alt: string;
  /** By which the text of a mail finds it. */
  readonly cid: string;
  /** Pixels it is shown at, at most. */
  readonly width: number;
}

export interface Letter {
  readonly subject: string;
  readonly text: string;
  readonly html: string;
}

export interface LetterOrder {
  readonly lesson: SentLesson;
  readonly template: LetterTemplate;
  readonly pictures: readonly LetterPicture[];
  /** What is not in this letter, or comes separately, as sentences for the student. */
  readonly remarks: readonly string[];
}

/** The lesson as a letter: as plain text, and as HTML that needs nothing from elsewhere and fits a phone 360 px wide. */
export function letterOf({ lesson, template, pictures, remarks }: LetterOrder): Letter {
  const fill = (text: string): string => filled(text, lesson).trim();
  const parts = [
    ...paragraphs(fill(template.opening)),
    ...partsOf(lesson),
    ...remarks.map((text): Part => ({ kind: 'text', text })),
    ...paragraphs(fill(template.closing)),
    { kind: 'heading', text: say`Please mind` } as const,
    { kind: 'list', items: lesson.cautions, ordered: false } as const,
  ];
  return {
    subject: fill(template.subject).replaceAll(/\s+/g, ' ') || lesson.title,
    text: `${asText(parts, pictures)}\n`,
    html: asHtml(parts, pictures, lesson.title),
  };
}

type Part =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[]; readonly ordered: boolean };

function partsOf({ asked, findings, changes, others, keyThoughts, drills, filmNext }: SentLesson): readonly Part[] {
  const film = [filmNext.what, filmNext.how].filter((part) => part.trim() !== '');
  return [
    ...section(
      asked === null ? '' : say`What we asked for on ${asked.date}`,
      asked === null
        ? []
        : asked.findings.map(({ label, words, outcome }) => sentences([`${label}: ${outcome}`, words])),
    ),
    ...section(say`What we found`, findings.map(findingWords), true),
    ...section(say`What changed`, [
      ...changes.map(
        ({ label, then, now, difference, verdict }) =>
          say`${label}: then ${then}, now ${now}, difference ${difference}: ${verdict}`,
      ),
      ...(others === null ? [] : [others]),
    ]),
    ...section(say`Key thoughts`, keyThoughts, true),
    ...drills.flatMap(({ title, steps, counts, caution }): readonly Part[] => [
      { kind: 'heading', text: say`Drill: ${title}` },
      ...(steps.length === 0 ? [] : [{ kind: 'list', items: steps, ordered: true } as const]),
      ...paragraphs(counts),
      ...paragraphs(caution),
    ]),
    ...section(say`Film for next time`, film),
  ];
}

/** A finding in a line: its number and what it is against, then the coach's words. */
export function findingWords({ label, number, goal, change, words }: SentFinding): string {
  const facts = [number, goal].filter((fact) => fact !== null).join(', ');
  return sentences([
    facts === '' ? label : `${label}: ${facts}`,
    ...(change === null ? [] : [upperFirst(change)]),
    words,
  ]);
}

function section(heading: string, items: readonly string[], ordered = false): readonly Part[] {
  return items.length === 0
    ? []
    : [
        { kind: 'heading', text: heading },
        { kind: 'list', items, ordered },
      ];
}

function paragraphs(text: string): readonly Part[] {
  return text
    .split(/\n\s*\n/)
    .map((each) => each.trim())
    .filter((each) => each !== '')
    .map((each) => ({ kind: 'text', text: each }));
}

/** Whole sentences: each gets its full stop where it has no end yet. */
export function sentences(parts: readonly string[]): string {
  return parts
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .map((part) => (/[.!?:]$/.test(part) ? part : `${part}.`))
    .join(' ');
}

const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The text with its placeholders filled in. A brace with anything else in it stays as it was typed. */
function filled(text: string, { firstName, date, club, findings }: SentLesson): string {
  const values: Readonly<Record<Placeholder, string>> = {
    'first name': firstName,
    ...{ date, club },
    readings: findings.map(({ label, number }) => `${label}: ${number ?? say`not read`}`).join('\n'),
  };
  return text.replaceAll(/\{([^{}]+)\}/g, (whole, name: string) => {
    const found = PLACEHOLDERS.find((each) => each === name || PLACEHOLDER_NAMES[each] === name);
    return found === undefined ? whole : values[found];
  });
}

function asText(parts: readonly Part[], pictures: readonly LetterPicture[]): string {
  const blocks = parts.map((part) => {
    if (part.kind !== 'list') return part.text;
    return part.items.map((item, index) => `${part.ordered ? `${String(index + 1)}.` : '-'} ${item}`).join('\n');
  });
  const shown = pictures.map(({ alt }, index) => say`Picture ${String(index + 1)}: ${alt}`);
  return [...blocks, ...(shown.length === 0 ? [] : [shown.join('\n')])].join('\n\n');
}

const INK = '#1f2421';
const STYLES = {
  body: `margin:0;padding:16px;background:#ffffff;color:${INK};font:16px/1.5 "Source Sans 3",-apple-system,"Segoe UI",Roboto,Arial,sans-serif`,
  frame: 'max-width:600px;margin:0 auto;overflow-wrap:anywhere',
  heading: 'font-size:18px;line-height:1.3;margin:24px 0 8px',
  text: 'margin:0 0 12px;white-space:pre-line',
  list: 'margin:0 0 12px;padding-left:24px',
  item: 'margin:0 0 8px;white-space:pre-line',
  picture: 'display:block;width:100%;height:auto;margin:0 0 16px;border-radius:4px',
} as const;

/** Styles stand on each element: mail programs drop a style sheet. */
function asHtml(parts: readonly Part[], pictures: readonly LetterPicture[], title: string): string {
  const body = parts.map((part) => {
    if (part.kind === 'heading') return `<h2 style="${attribute(STYLES.heading)}">${escaped(part.text)}</h2>`;
    if (part.kind === 'text') return `<p style="${STYLES.text}">${escaped(part.text)}</p>`;
    const tag = part.ordered ? 'ol' : 'ul';
    const items = part.items.map((item) => `<li style="${STYLES.item}">${escaped(item)}</li>`);
    return `<${tag} style="${STYLES.list}">${items.join('\n')}</${tag}>`;
  });
  const shown = pictures.map(
    ({ alt, cid, width }) =>
      `<img src="cid:${attribute(cid)}" alt="${attribute(alt)}" width="${String(width)}" style="${STYLES.picture};max-width:${String(width)}px">`,
  );
  // Opening, then what is to be seen, then what is to be read.
  const opening = parts.findIndex(({ kind }) => kind !== 'text');
  const cut = opening < 0 ? parts.length : opening;
  return [
    '<!DOCTYPE html>',
    `<html lang="${LANGUAGE}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${escaped(title)}</title></head>`,
    `<body style="${attribute(STYLES.body)}"><div style="${STYLES.frame}">`,
    ...body.slice(0, cut),
    ...shown,
    ...body.slice(cut),
    '</div></body></html>',
    '',
  ].join('\n');
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

function attribute(text: string): string {
  return escaped(text)
    .replaceAll('"', '&quot;')
    .replaceAll(/\s*\n\s*/g, ' ');
}
