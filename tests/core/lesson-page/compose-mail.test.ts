import { simpleParser } from 'mailparser';
import { describe, expect, test } from 'vitest';
import { composeMail, type MailFile } from '../../../core/lesson-page/compose-mail.ts';
import { DEFAULT_MAIL_BYTES } from '../../../core/lesson-page/mail-budget.ts';
import { USUAL_LIBRARY } from '../../../core/model/lesson-page.ts';
import type { PagePicture } from '../../../core/lesson-page/page-picture.ts';
import { lessonOf, noisyPictures } from './sample-lesson.ts';

const PDF: MailFile = {
  name: 'Zo\u00eb 12 May 2026.pdf',
  type: 'application/pdf',
  bytes: Buffer.from('%PDF-1.7 sample'),
};
const MADE = new Date('2026-05-12T10:00:00Z');
/** Only the size counts here; that a smaller picture is still one is a test of its own. */
const shrink = async (picture: PagePicture, most: number): Promise<PagePicture> => ({
  ...picture,
  bytes: picture.bytes.subarray(0, most),
});
const template = {
  ...USUAL_LIBRARY.letter,
  opening: `${USUAL_LIBRARY.letter.opening}\n\n{readings}\n\n{no such} <b>& so on</b>`,
};

async function draftOf(
  pictures: readonly PagePicture[],
  more: { mostBytes?: number; talk?: MailFile | 'too large' } = {},
) {
  const lesson = lessonOf();
  const { talk = null, ...rest } = more;
  const draft = await composeMail({ lesson, template, pictures, pdf: PDF, talk, made: MADE, shrink, ...rest });
  return { ...draft, lesson, mail: await simpleParser(Buffer.from(draft.bytes), { skipImageLinks: true }) };
}

describe('the mail draft, read by an independent reader', () => {
  test('opens as unsent, without sender or receiver, in text and HTML, with the stills inside and the PDF', async () => {
    const { mail, lesson } = await draftOf(await noisyPictures(2, 200));
    expect(mail.headers.get('x-unsent')).toBe('1');
    for (const header of ['from', 'to', 'cc', 'bcc']) expect(mail.headers.has(header)).toBe(false);
    expect(mail.date).toEqual(MADE);
    expect(mail.messageId).toMatch(/^<[0-9a-f-]{36}@baybook\.invalid>$/);
    expect(mail.subject).toBe('Your lesson of 12 May 2026');
    const html = String(mail.html);
    for (const said of [
      'Hello Zo\u00eb',
      'Turn, then swing.',
      'Feet together',
      'Film for next time',
      ...lesson.cautions,
    ]) {
      expect(mail.text).toContain(said);
      expect(html).toContain(said);
    }
    expect(mail.text).toContain(`${lesson.findings[0]?.label ?? ''}: ${lesson.findings[0]?.number ?? ''}`);
    expect(mail.text).toContain('{no such} <b>& so on</b>');
    expect(html).toContain('{no such} &lt;b&gt;&amp; so on&lt;/b&gt;');
    expect(html).not.toMatch(/(src|href)="(?!cid:)/);

    const [first, second, pdf, ...rest] = mail.attachments;
    expect(rest).toEqual([]);
    for (const still of [first, second]) {
      expect(still).toMatchObject({ contentType: 'image/jpeg', contentDisposition: 'inline', related: true });
      expect(html).toContain(`src="cid:${still?.cid ?? ''}"`);
    }
    expect(html).toContain('alt="Robin at top &quot;0&quot;: trail knee 150\u00b0 \u00b1 3\u00b0 &lt;now&gt;"');
    expect(mail.text).toContain('Picture 1: Robin at top "0": trail knee 150\u00b0 \u00b1 3\u00b0');
    expect(pdf).toMatchObject({ contentType: 'application/pdf', contentDisposition: 'attachment', filename: PDF.name });
    expect(pdf?.content.equals(Buffer.from(PDF.bytes))).toBe(true);
  });

  test('keeps the limits of lines: ASCII, CRLF, 78 characters where it folds and 998 anywhere, base64 of 76', async () => {
    const { bytes } = await draftOf(await noisyPictures(2, 200));
    const raw = Buffer.from(bytes).toString('latin1');
    expect([...raw].every((character) => character.charCodeAt(0) < 128)).toBe(true);
    expect(raw.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const lines = raw.split('\r\n');
    // RFC 5322, 2.1.1: at most 998, and should be at most 78; RFC 2045, 6.8: encoded lines at most 76.
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(78);
    for (const line of lines) if (/^[A-Za-z0-9+/=]{40,}$/.test(line)) expect(line.length).toBeLessThanOrEqual(76);
    // RFC 2183, 2: a disposition and a file name on each part that is a file.
    const dispositions = raw.replaceAll(/\r\n[ \t]+/g, ' ').match(/^Content-Disposition: .*$/gm) ?? [];
    expect(dispositions).toHaveLength(3);
    for (const each of dispositions) expect(each).toMatch(/^Content-Disposition: (inline|attachment); filename/);
  });

  test('stays within its size by smaller stills, also where they are far too large', async () => {
    const pictures = await noisyPictures(3, 500);
    expect(pictures.reduce((sum, { bytes }) => sum + bytes.length, 0)).toBeGreaterThan(400_000);
    const { bytes, mail, notes } = await draftOf(pictures, { mostBytes: 300_000 });
    expect(mail.attachments).toHaveLength(4);
    expect(mail.attachments.reduce((sum, { size }) => sum + size, 0)).toBeLessThanOrEqual(300_000);
    // Base64 of 57 bytes is a line of 78.
    expect(bytes.length).toBeLessThan((300_000 * 78) / 57);
    expect(notes).toEqual(['The stills in the mail are smaller, so that it stays within its size.']);
  });

  test('leaves stills to the PDF rather than fail, and says so', async () => {
    const { mail, notes } = await draftOf(await noisyPictures(3, 340), { mostBytes: 90_000 });
    expect(mail.attachments.at(-1)?.contentType).toBe('application/pdf');
    expect(notes.join(' ')).toContain('Not all stills fit into the mail.');
    expect(mail.text).toContain('More pictures are in the PDF.');
  });

  test('takes a talk-through along where it fits, else the letter says that it comes separately', async () => {
    const talk = (size: number): MailFile => ({ name: 'review.mp4', type: 'video/mp4', bytes: new Uint8Array(size) });
    const pictures = await noisyPictures(1, 200);
    const small = await draftOf(pictures, { talk: talk(1000) });
    expect(small.mail.attachments.map(({ filename }) => filename)).toContain('review.mp4');
    expect(small.notes).toEqual([]);
    const large = await draftOf(pictures, { talk: talk(DEFAULT_MAIL_BYTES) });
    expect(large.mail.attachments.map(({ filename }) => filename)).not.toContain('review.mp4');
    expect(large.mail.text).toContain('My spoken review comes separately.');
    expect(large.bytes.length).toBeLessThan(10_000_000);
    const known = await draftOf(pictures, { talk: 'too large' });
    expect(known.mail.text).toContain('My spoken review comes separately.');
    expect(known.notes).toEqual(['The talk-through is too large for a mail. Send it separately.']);
  });
});
