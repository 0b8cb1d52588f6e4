import { randomUUID } from 'node:crypto';
import MailComposer from 'nodemailer/lib/mail-composer';
import { say } from '../model/say.ts';
import type { LetterTemplate } from '../model/lesson-page.ts';
import { letterOf } from '../report/letter.ts';
import type { SentLesson } from '../report/sent-lesson.ts';
import { shareOf, stillsThatFit, DEFAULT_MAIL_BYTES } from './mail-budget.ts';
import type { PagePicture } from './page-picture.ts';

export interface MailFile {
  readonly name: string;
  readonly type: 'application/pdf' | 'video/mp4';
  readonly bytes: Uint8Array;
}

export interface MailOrder {
  readonly lesson: SentLesson;
  readonly template: LetterTemplate;
  readonly pictures: readonly PagePicture[];
  readonly pdf: MailFile;
  /** Goes in only where it fits; else, and where it is known to be too large, the letter says that it comes separately. */
  readonly talk: MailFile | 'too large' | null;
  /** Most bytes of all that is attached, before base64. Default: DEFAULT_MAIL_BYTES. */
  readonly mostBytes?: number;
  readonly made: Date;
  /** A JPEG of the same, of at most so many bytes where it can be; smaller pictures, never none. */
  readonly shrink: (picture: PagePicture, mostBytes: number) => Promise<PagePicture>;
}

export interface MailDraft {
  /** The whole .eml file. */
  readonly bytes: Uint8Array;
  /** What was left out or made smaller, as sentences for the coach. */
  readonly notes: readonly string[];
}

/** Widest that a still is shown at in the letter, px. */
const SHOWN_WIDTH = 540;

/**
 * A letter that mail programs open as one that was not sent yet (`X-Unsent: 1`). It has no sender and no receiver: the mail
 * program and the coach fill those in. Lines end and fold as RFC 5322 and RFC 2045 ask.
 */
export async function composeMail(order: MailOrder): Promise<MailDraft> {
  const most = order.mostBytes ?? DEFAULT_MAIL_BYTES;
  const share = shareOf(most, order.pdf.bytes.length, order.pictures.length);
  const shrunk: PagePicture[] = [];
  for (const picture of order.pictures)
    shrunk.push(picture.bytes.length <= share ? picture : await order.shrink(picture, share));
  const { kept, left } = stillsThatFit(shrunk, most - order.pdf.bytes.length);
  const used = order.pdf.bytes.length + kept.reduce((sum, { bytes }) => sum + bytes.length, 0);
  const wanted = order.talk === 'too large' ? null : order.talk;
  const talk = wanted !== null && used + wanted.bytes.length <= most ? wanted : null;
  const files = [order.pdf, ...(talk === null ? [] : [talk])];
  const pictures = kept.map((picture, index) => ({ ...picture, cid: `still-${String(index + 1)}@baybook.invalid` }));
  const letter = letterOf({
    lesson: order.lesson,
    template: order.template,
    pictures: pictures.map(({ alt, cid, width }) => ({ alt, cid, width: Math.min(width, SHOWN_WIDTH) })),
    remarks: [
      ...(left > 0 ? [say`More pictures are in the PDF.`] : []),
      ...(order.talk !== null && talk === null ? [say`My spoken review comes separately.`] : []),
    ],
  });
  const composed = new MailComposer({
    ...{ subject: letter.subject, text: letter.text, html: letter.html, newline: 'windows', textEncoding: 'base64' },
    date: order.made,
    // Its usual one would name this computer.
    messageId: `<${randomUUID()}@baybook.invalid>`,
    // All that goes in is at hand: nothing is fetched, and no file is read.
    ...{ disableFileAccess: true, disableUrlAccess: true },
    headers: { 'X-Unsent': '1' },
    attachments: [
      ...pictures.map(({ cid, name, bytes }) => ({
        ...{ cid, filename: name, content: Buffer.from(bytes), contentType: 'image/jpeg' },
        contentDisposition: 'inline' as const,
      })),
      ...files.map(({ name, type, bytes }) => ({
        ...{ filename: name, content: Buffer.from(bytes), contentType: type },
        contentDisposition: 'attachment' as const,
      })),
    ],
  });
  return {
    bytes: await composed.compile().build(),
    notes: [
      ...(shrunk.some((picture, index) => picture !== order.pictures[index])
        ? [say`The stills in the mail are smaller, so that it stays within its size.`]
        : []),
      ...(left > 0 ? [say`Not all stills fit into the mail. All of them are in the PDF.`] : []),
      ...(order.talk !== null && talk === null
        ? [say`The talk-through is too large for a mail. Send it separately.`]
        : []),
    ],
  };
}
