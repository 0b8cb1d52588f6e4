import { join } from 'node:path';
import { expect, it } from 'vitest';
import { CHILD } from '../../../core/measure/words/cautions.ts';
import { writeSwingFile } from '../../../core/swing-file/write-swing-file.ts';
import { sampleSwing } from '../swing-file/sample-swing.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { baybook } from './run-baybook.ts';

it('whoever makes something of a child’s swing is reminded of consent beside the result, and of nobody else’s', async () => {
  const folder = temporaryFolder();
  const [childs, others] = [join(folder, 'child.json'), join(folder, 'other.json')];
  await writeSwingFile(childs, sampleSwing());
  await writeSwingFile(others, { ...sampleSwing(), student: { firstName: 'Robin' } });
  const numbers = await baybook('numbers', childs);
  expect([numbers.code, numbers.said]).toEqual([0, [CHILD]]);
  expect(numbers.out).not.toContain(CHILD);
  expect((await baybook('numbers', others)).said).toEqual([]);
  // Before anything is made, also where nothing can be: the clips of these swings are nowhere.
  for (const argv of [
    ['page', childs, '--out', join(folder, 'lesson.pdf')],
    ['mail', childs, '--out', join(folder, 'lesson.eml')],
    ['sheet', others, childs, '--out', join(folder, 'stills')],
  ]) {
    const [command = '', ...rest] = argv;
    expect((await baybook(command, ...rest)).said[0]).toBe(CHILD);
  }
});
