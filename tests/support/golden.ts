import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PNG } from 'pngjs';

const GOLDEN_FOLDER = join(import.meta.dirname, '..', 'golden');
const DIFFERENCE_FOLDER = join(import.meta.dirname, '..', '..', '.cache', 'golden');
/** Levels of 255 that a pixel may differ in: processors of another kind round the edges of letters differently. */
const LEVELS = 2;

/**
 * Throws unless an RGBA picture looks as the one kept in tests/golden under `name`. Where none is kept yet it is written,
 * to be looked at and committed; with CI set that is a failure. On a difference, a picture with what differs in red is
 * written and its path is in the message. To accept a change, delete the kept picture and run the test again.
 */
export function expectGolden(name: string, picture: { width: number; height: number; rgba: Uint8Array }): void {
  const path = join(GOLDEN_FOLDER, `${name}.png`);
  if (!existsSync(path)) {
    if (process.env['CI'] === 'true')
      throw new Error(`no golden picture ${name}: run the test without CI and commit it`);
    mkdirSync(GOLDEN_FOLDER, { recursive: true });
    writeFileSync(path, PNG.sync.write(asPng(picture)));
    return;
  }
  const golden = PNG.sync.read(readFileSync(path));
  if (golden.width !== picture.width || golden.height !== picture.height)
    throw new Error(
      `${name} is ${picture.width} x ${picture.height}, the golden picture ${golden.width} x ${golden.height}`,
    );
  const difference = asPng(picture);
  let differing = 0;
  for (let i = 0; i < picture.rgba.length; i += 4) {
    const same = [0, 1, 2, 3].every(
      (channel) => Math.abs((picture.rgba[i + channel] ?? 0) - (golden.data[i + channel] ?? 0)) <= LEVELS,
    );
    if (same) continue;
    differing += 1;
    difference.data.set([255, 0, 0, 255], i);
  }
  if (differing === 0) return;
  mkdirSync(DIFFERENCE_FOLDER, { recursive: true });
  const shown = join(DIFFERENCE_FOLDER, `${name}-difference.png`);
  writeFileSync(shown, PNG.sync.write(difference));
  throw new Error(`${name} differs from its golden picture in ${differing} pixels: see ${shown}`);
}

function asPng(picture: { width: number; height: number; rgba: Uint8Array }): PNG {
  const png = new PNG({ width: picture.width, height: picture.height });
  png.data = Buffer.from(picture.rgba);
  return png;
}
