import { beforeEach, expect, test } from 'vitest';
import { ENLARGED_LINES, USUAL_SETTINGS } from '../../../../core/model/settings.ts';
import { enlargeByWheel } from '../../../../renderer/bench/state/loupe.ts';
import { changeSettings, settings } from '../../../../renderer/shell/state/settings.ts';
import { within } from '../../../support/within.ts';
import { controlProgram } from '../../controlled-program.ts';

const lines = () => settings.get().enlargedLines;

beforeEach(() => {
  controlProgram();
  Object.assign(globalThis, { document: { documentElement: { dataset: {} } } });
  changeSettings(USUAL_SETTINGS);
});

test('a notch of the wheel shows a fifth more or less, and two of them lead back', () => {
  enlargeByWheel(100);
  within(lines(), USUAL_SETTINGS.enlargedLines * 1.2, 1e-9);
  enlargeByWheel(-100);
  within(lines(), USUAL_SETTINGS.enlargedLines, 1e-9);
});

test('it ends where single pixels fill the view, and where it would show a whole player', () => {
  for (let notch = 0; notch < 40; notch += 1) enlargeByWheel(-100);
  expect(lines()).toBe(ENLARGED_LINES.least);
  for (let notch = 0; notch < 40; notch += 1) enlargeByWheel(100);
  expect(lines()).toBe(ENLARGED_LINES.most);
});
