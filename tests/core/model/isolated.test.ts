import { createCanvas } from '@napi-rs/canvas';
import { describe, expect, it } from 'vitest';
import { EMPTY_GOALS } from '../../../core/measure/goals/goals.ts';
import { EMPTY_PAGE } from '../../../core/model/lesson-page.ts';
import { letterOf } from '../../../core/report/letter.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import { sentLesson } from '../../../core/report/sent-lesson.ts';
import { warningsOf } from '../../../core/compare/warnings.ts';
import { isolated } from '../../../core/model/isolated.ts';
import type { PanelOrder } from '../../../core/painting/sheet-order.ts';
import { captionsOf } from '../../../core/report/captions.ts';
import { registerFonts } from '../../../core/sheet/fonts.ts';
import { stillFileName } from '../../../core/sheet/still-file-name.ts';
import { plainFileName } from '../../../electron/ipc/plain-file-name.ts';
import { lessonName, studentName } from '../../../renderer/shell/words.ts';
import { swingOf } from '../measure/build-swing.ts';

const HEBREW = 'דנה';
const ARABIC = 'ليلى';
/** Right-to-left override: turns all that follows it, letters and figures alike. */
const OVERRIDDEN = 'Ada\u202E';
const TAIL = ' · 7 iron · 2026-05-12 · 34.2° ± 1.4°';

/** The right end of a line of text as the canvas, which follows the Unicode bidirectional algorithm, sets it. */
function rightEnd(text: string, width: number): Buffer {
  const canvas = createCanvas(900, 60);
  const ctx = canvas.getContext('2d');
  ctx.font = '28px "Source Sans 3"';
  ctx.textAlign = 'right';
  ctx.fillText(text, 880, 40);
  const from = Math.ceil(880 - width) + 2;
  return Buffer.from(ctx.getImageData(from, 0, 900 - from, 60).data.buffer);
}

function widthOf(text: string): number {
  const ctx = createCanvas(1, 1).getContext('2d');
  ctx.font = '28px "Source Sans 3"';
  return ctx.measureText(text).width;
}

describe('what a person typed turns nothing that stands beside it', () => {
  registerFonts();
  const width = widthOf(TAIL);
  const alone = rightEnd(TAIL, width);

  it.each([HEBREW, ARABIC, OVERRIDDEN, `\u202E${HEBREW}`, `\u2067${ARABIC}`, `${HEBREW}\u200F`])(
    'so that the rest of the line is set as it would be without %j',
    (name) => {
      expect(rightEnd(`${name}${TAIL}`, width).equals(alone), 'without care it does turn').toBe(false);
      expect(rightEnd(`${isolated(name)}${TAIL}`, width).equals(alone)).toBe(true);
    },
  );

  it('and what turns nothing is left as it is', () => {
    for (const name of ['', 'Mara', 'Žofie', "O'Neil-Smith", '7 iron', 'Μαρία', '李娜', 'Ada 👩‍👧'])
      expect(isolated(name)).toBe(name);
  });
});

describe('names are isolated wherever they are joined with other words', () => {
  /** Each isolate is closed, in the same text, and no other sign that steers direction is left. */
  function expectTame(text: string, name: string): void {
    expect(text).toContain(isolated(name));
    expect(text.replaceAll(`\u2068${name}\u2069`, '')).not.toMatch(/[\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/u);
  }

  it('on stills', () => {
    const caption = { firstName: HEBREW, date: '2026-05-12', view: 'Face on', club: OVERRIDDEN, checkpoint: 'Top' };
    const panel = (firstName: string): PanelOrder => ({
      ...{ picture: { width: 10, height: 10 }, crop: null, look: 'plain', marks: [], readings: [] },
      caption: { ...caption, firstName, time: null },
    });
    const one = captionsOf({ rows: [{ panels: [panel(HEBREW)] }] });
    expectTame(`${one.name} ${one.facts}`, HEBREW);
    expect(one.facts).toBe('Face on · Ada · 2026-05-12');
    const two = captionsOf({ rows: [{ panels: [panel(HEBREW), panel(ARABIC)] }] });
    expectTame(two.panels[1]?.facts ?? '', ARABIC);
  });

  it('in the window, in warnings and in the message', () => {
    const day = { id: '1', studentId: '1', date: '2026-05-12', handedness: 'right', note: '' } as const;
    expectTame(lessonName({ ...day, club: HEBREW }), HEBREW);
    const student = { firstName: HEBREW, lastName: '\u202E' } as Parameters<typeof studentName>[0];
    expect(studentName(student)).toBe(`\u2068${HEBREW} \u2069`);
    const swing = swingOf({ view: 'face-on', placed: { top: {} } });
    const [warning] = warningsOf({ ...swing, club: HEBREW }, { ...swing, club: OVERRIDDEN }, [], []);
    expectTame(warning?.words ?? '', HEBREW);
    expectTame(warning?.onStills ?? '', HEBREW);
    expect(warningsOf({ ...swing, club: 'Ada' }, { ...swing, club: OVERRIDDEN }, [], [])).toEqual([]);
    const template = { subject: '{first name} {club}', opening: '{first name}', closing: '' };
    const report = reportOf({
      now: { ...swing, studentFirstName: ARABIC, club: OVERRIDDEN },
      ...{ then: null, goals: EMPTY_GOALS },
    });
    const letter = letterOf({
      lesson: sentLesson(report, EMPTY_PAGE, null),
      ...{ template, pictures: [], remarks: [] },
    });
    for (const said of [letter.subject, letter.text, letter.html]) expectTame(said, ARABIC);
  });

  it('and a file name holds no sign that steers direction', () => {
    const name = { firstName: `\u2067${HEBREW}\u202E`, date: '2026-05-12', view: 'face-on', parts: ['top'] } as const;
    expect(stillFileName({ ...name, format: 'jpeg' })).toBe(`${HEBREW}-2026-05-12-face-on-top.jpg`);
    expect(plainFileName(`${HEBREW}\u202E 1`)).toBe(`${HEBREW} 1`);
  });
});
