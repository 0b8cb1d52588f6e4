import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Comparison } from '../../../core/model/reading.ts';
import { writeSwingFile } from '../../../core/swing-file/write-swing-file.ts';
import { EMPTY_PAGE } from '../../../core/model/lesson-page.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { inventedSwing, movedSwing } from '../measure/invented-swing.ts';
import { baybook } from './run-baybook.ts';

describe('baybook compare with other swings of the lessons', () => {
  /** Swing files of lessons; `by` moves every point, so that no swing is like the other. */
  async function write(folder: string, name: string, date: string, by: number, club = '7 iron'): Promise<string> {
    const swing = movedSwing(inventedSwing(), ({ x, y }) => ({ x: x + by * Math.sin(y), y: y + by * Math.cos(x) }));
    const path = join(folder, `${name}.json`);
    await writeSwingFile(path, {
      ...({ format: 'baybook-swing', version: 2, student: { firstName: 'Ada' }, pins: [], page: EMPTY_PAGE } as const),
      lesson: { date, club, handedness: swing.handedness },
      clips: swing.clips.map((clip) => ({
        ...{ ...clip, file: 'a.mp4', sha256: 'a'.repeat(64) },
        marks: clip.marks.map((marks) => ({ ...marks, shapes: [] })),
      })),
    });
    return path;
  }
  const compared = async (...argv: string[]): Promise<readonly Comparison[]> => {
    const { out } = await baybook('compare', ...argv, '--json');
    return (JSON.parse(out) as { comparisons: readonly Comparison[] }).comparisons;
  };

  it('compares the means, and says so in the table', async () => {
    const folder = temporaryFolder();
    const then = await write(folder, 'then', '2026-04-12', 0);
    const [now, second, third] = await Promise.all(
      [1, 2, 3].map((by) => write(folder, `now${String(by)}`, '2026-05-12', by)),
    );
    if (now === undefined || second === undefined || third === undefined) throw new Error('three');
    const [alone, means] = [await compared(then, now), await compared(then, now, '--now-also', `${second},${third}`)];
    expect(means.length).toBe(alone.length);
    // A number that tells nothing counts in no mean.
    expect(means.filter(({ now: { swings } }) => swings?.values.length === 3).length).toBeGreaterThan(
      0.6 * means.length,
    );
    const surer = means.filter(({ u }, i) => u < (alone[i]?.u ?? 0));
    expect(surer.length).toBeGreaterThan(0.6 * means.length);
    const { out } = await baybook('compare', then, now, '--now-also', `${second},${third}`);
    expect(out).toContain('Note: Means of one swing then and 3 swings now, where they are marked.');
    expect(out).toContain('(mean of 3 swings)');
  });

  it('refuses a swing of another day or club, and says which', async () => {
    const folder = temporaryFolder();
    const then = await write(folder, 'earlier', '2026-04-12', 0);
    const now = await write(folder, 'later', '2026-05-12', 1);
    const driver = await write(folder, 'driver', '2026-05-12', 1, 'Driver');
    for (const other of [then, driver]) {
      const { code, said } = await baybook('compare', then, now, '--now-also', other);
      expect(code).toBe(2);
      expect(said[0]).toContain(`${other} is of another day, club or handedness`);
    }
  });
});
