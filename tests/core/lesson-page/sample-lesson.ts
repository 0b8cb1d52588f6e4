import { createCanvas } from '@napi-rs/canvas';
import type { LessonPage } from '../../../core/model/lesson-page.ts';
import type { PagePicture } from '../../../core/lesson-page/page-picture.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import { sentLesson, type SentLesson } from '../../../core/report/sent-lesson.ts';
import { inventedSwing } from '../measure/invented-swing.ts';
import { samplePage } from '../swing-file/sample-swing.ts';

/** A page whose findings are read in the invented swing. */
export const readPage = (): LessonPage => ({
  ...samplePage(),
  findings: [
    {
      reading: { id: 'shoulder-to-spine', aspect: 'value', view: 'down-the-line', checkpoint: 'top' },
      words: 'Too flat for the spine, so you meet the ground first',
    },
    { reading: { id: 'trail-knee', aspect: 'change', view: 'face-on', checkpoint: 'top' }, words: '' },
  ],
});

/** Then and now are one and the same invented swing. */
export function lessonOf(page = readPage(), firstName = 'Zo\u00eb'): SentLesson {
  const swing = { ...inventedSwing(), studentFirstName: firstName };
  return sentLesson(reportOf({ now: swing, then: swing, goals: SHIPPED_GOALS }), page, null);
}

/** Pictures of coloured noise: a JPEG of them is large. */
export async function noisyPictures(count: number, width: number): Promise<readonly PagePicture[]> {
  const pictures: PagePicture[] = [];
  for (let number = 0; number < count; number += 1) {
    const height = Math.round(width * 1.25);
    const canvas = createCanvas(width, height);
    const ctx = canvas.getContext('2d');
    const pixels = ctx.createImageData(width, height);
    let state = number + 1;
    for (let at = 0; at < pixels.data.length; at += 1) {
      state = (state * 1103515245 + 12345) % 2147483648;
      pixels.data[at] = at % 4 === 3 ? 255 : (state >> 16) & 255;
    }
    ctx.putImageData(pixels, 0, 0);
    const place = number % 2 === 0 ? 'down-the-line' : 'face-on';
    pictures.push({
      ...{ view: place, checkpoint: 'top', bytes: await canvas.encode('jpeg', 90), width, height },
      ...{
        alt: `Robin at top "${String(number)}": trail knee 150\u00b0 \u00b1 3\u00b0 <now>`,
        name: `still-${String(number)}.jpg`,
      },
    });
  }
  return pictures;
}
