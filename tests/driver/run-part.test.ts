import { expect, test } from 'vitest';
import { AppError } from '../../core/model/errors.ts';
import { prepareParts, runPart } from '../support/run-part.ts';
import type { Part } from '../support/test-parts.ts';

/** A part without tests, which writes down when it is prepared. */
function part(name: string, seen: string[], trouble: Error | null = null): Part {
  const prepare = async (): Promise<void> => {
    seen.push(`${name} begins`);
    await new Promise((resolve) => setTimeout(resolve, 5));
    seen.push(`${name} ends`);
    if (trouble !== null) throw trouble;
  };
  return { name, steps: [], prepare };
}

test('parts are prepared one after the other, the next one also after one that could not be', async () => {
  const seen: string[] = [];
  const parts = [
    part('first', seen),
    part('second', seen, new AppError('internal', 'Nothing to be had.')),
    part('third', seen),
  ];
  const prepared = prepareParts('/nowhere', parts, () => undefined);
  await prepared.get(parts[2] ?? part('none', []));
  expect(seen).toEqual(['first', 'second', 'third'].flatMap((name) => [`${name} begins`, `${name} ends`]));
});

test('a part that could not be prepared is one failed test, and says why', async () => {
  const said: string[] = [];
  const poor = part('poor', [], new AppError('internal', 'Nothing to be had.'));
  const prepared = prepareParts('/nowhere', [poor], () => undefined);
  const outcome = await runPart('/nowhere', poor, prepared.get(poor), (line) => said.push(line));
  expect(outcome).toEqual({ passed: 0, failed: 1, leftOut: 0, troubles: ['Nothing to be had.'] });
  expect(said).toEqual(['Nothing to be had.']);
});
