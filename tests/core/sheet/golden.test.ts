import { createCanvas } from '@napi-rs/canvas';
import { test } from 'vitest';
import { drawListOf } from '../../../core/painting/draw-list.ts';
import { STYLES } from '../../../core/painting/styles.ts';
import { paint } from '../../../core/painting/paint.ts';
import { STILL_CAUTIONS } from '../../../core/report/captions.ts';
import { registerFonts } from '../../../core/sheet/fonts.ts';
import { paintStill } from '../../../core/sheet/write-still.ts';
import { expectGolden } from '../../support/golden.ts';
import { EVERY_MARK } from '../painting/marks.ts';
import { bay } from './pictures.ts';

const LABELS = {
  pointNames: true,
  shapes: { yard: '100 cm', angle: '90.0° ± 1.2°' },
  sticks: { spine: '41.2° ± 1.3°' },
};

test('every mark in every look', () => {
  registerFonts();
  const canvas = createCanvas(360 * STYLES.length, 480);
  const ctx = canvas.getContext('2d');
  ctx.lang = 'en';
  for (const [index, look] of STYLES.entries()) {
    ctx.fillStyle = ['#3F7F3F', '#8DB9E8', '#1A1A1C'][index] ?? '#000000';
    ctx.fillRect(360 * index, 0, 360, 480);
    ctx.save();
    ctx.translate(360 * index, 0);
    const items = drawListOf(EVERY_MARK, { look, width: 360, height: 480, labels: LABELS });
    paint(ctx, items, { scale: 1, visible: { x: 0, y: 0, width: 360, height: 480 } });
    ctx.restore();
  }
  const { data } = ctx.getImageData(0, 0, canvas.width, canvas.height);
  expectGolden('every-mark', { width: canvas.width, height: canvas.height, rgba: new Uint8Array(data) });
});

test('a sheet of then and now', async () => {
  const caption = { firstName: 'Žofie', view: 'Down the line', club: '7 iron', checkpoint: 'Top' };
  const panel = (look: 'then' | 'now', date: string) => ({
    picture: bay(360, 480),
    crop: null,
    look,
    caption: { ...caption, date, time: '3.937 s' },
    marks: drawListOf(EVERY_MARK, { look, width: 360, height: 480, labels: { sticks: { spine: '41.2° ± 1.3°' } } }),
    readings: [],
  });
  const comparisons = [
    {
      label: 'Back incline',
      then: '41.2° ± 1.3°',
      now: '38.6° ± 1.2°',
      difference: '−2.6° ± 1.8°',
      verdict: 'changed',
    },
    { label: 'Lead knee', then: '142° ± 2°', now: '141° ± 3°', difference: '−1° ± 4°', verdict: "can't tell" },
  ] as const;
  const still = await paintStill({
    width: 800,
    rows: [{ panels: [panel('then', '14 April 2026'), panel('now', '12 May 2026')], comparisons }],
    notes: ['Placing error assumed.'],
    cautions: STILL_CAUTIONS,
  });
  expectGolden('then-and-now', still);
});
