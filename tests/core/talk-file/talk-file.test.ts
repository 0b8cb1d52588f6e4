import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { AppError } from '../../../core/model/errors.ts';
import { parseTalkFile, type TalkFile } from '../../../core/talk-file/parse-talk-file.ts';
import { readTalkFile, writeTalkFile } from '../../../core/talk-file/read-talk-file.ts';
import { drawn } from '../../support/drawn.ts';
import { at, changed, placesIn } from '../../support/json-places.ts';
import { sized } from '../../support/sized.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { sampleSwing } from '../swing-file/sample-swing.ts';
import { sampleTalk } from '../talk/sample-talk.ts';

const sample = (): TalkFile => ({
  ...sampleTalk(),
  format: 'baybook-talk',
  version: 1,
  swings: { now: sampleSwing(), then: null },
});
const schema: object = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../../resources/talk.schema.json'), 'utf8'),
);
const fits = new Ajv2020({ strict: true, strictTypes: false, strictRequired: false, strictTuples: false }).compile(
  schema,
);

function parses(content: unknown): boolean {
  try {
    parseTalkFile(content);
    return true;
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    expect(error.message).toMatch(/^This .*\.$/);
    return false;
  }
}

test('what is written is read back as the same, from wherever it lies', async () => {
  const folder = temporaryFolder();
  const path = join(folder, 'talk.json');
  await writeTalkFile(path, sample());
  expect(await readTalkFile(path)).toEqual({ talk: sample(), folder });
  await expect(writeTalkFile(path, sample())).rejects.toMatchObject({ code: 'file-exists' });
});

test('what is no talk-through is refused with a sentence', async () => {
  const path = join(temporaryFolder(), 'x.json');
  for (const [text, code] of [
    ['', 'file-empty'],
    ['{', 'talk-file-invalid'],
    ['{}', 'talk-file-invalid'],
    [JSON.stringify({ ...sample(), version: 3 }), 'talk-file-newer'],
  ] as const) {
    writeFileSync(path, text);
    await expect(readTalkFile(path)).rejects.toMatchObject({ code });
  }
});

describe('the schema and the parser say the same', () => {
  const wrong: unknown[] = [undefined, null, true, '', 'x', 'then', 'show', 'a\nb', 'a'.repeat(401), -1, 0, 1, 2, 0.5];
  wrong.push(1e300, 1e9, [], [0], {}, { x: 1, y: 2 });
  // What the swings hold is held to their own schema by a test of its own.
  const places = placesIn(sample()).filter((path) => path[0] !== 'swings' || path.length < 3);
  // What no schema can say: the order of events, pieces within their takes, clips that are there.
  const beyond =
    /^(takes\.\d(\.(length|events(\.\d+(\.(at|which|view|panes\.\d\.(view|which)))?)?))?|pieces\.\d(\.(take|from|to))?|takes)$/;

  /** Of each place so many: the whole takes seconds, and neighbours try other ones. */
  const most = sized(8, wrong.length);

  test('on each file with one value replaced or left out', () => {
    expect([parses(sample()), fits(sample()) || fits.errors]).toEqual([true, true]);
    const apart: string[] = [];
    for (const [place, path] of places.entries())
      for (const to of drawn(wrong, most * place, most)) {
        const file = changed(sample(), path, to);
        if (parses(file) === fits(file) || (fits(file) && beyond.test(path.join('.')))) continue;
        apart.push(`${path.join('.')} = ${JSON.stringify(to)}: parser ${String(parses(file))}`);
      }
    expect(apart).toEqual([]);
  }, 60_000);

  test('on each object with a surplus field', () => {
    for (const path of places) {
      const inner = at(sample(), path);
      if (typeof inner !== 'object' || inner === null || Array.isArray(inner)) continue;
      const file = changed(sample(), path, { ...inner, surplus: 1 });
      expect([path.join('.'), parses(file), fits(file)]).toEqual([path.join('.'), false, false]);
    }
  });
});

test('what no schema can say is refused: events out of order, a piece past its take, a clip that no swing has', () => {
  const refused = (path: readonly (string | number)[], to: unknown, words: RegExp): void => {
    expect(() => parseTalkFile(changed(sample(), path, to))).toThrow(words);
  };
  refused(['takes', 0, 'events', 3, 'at'], 9999, /takes\[0\]\.events must be in the order of time/);
  refused(['takes', 0, 'events', 0, 'at'], 1, /must begin with "show" at 0/);
  refused(['pieces', 0, 'to'], 10_001, /pieces that lie within their takes/);
  refused(['pieces', 0, 'take'], 2, /pieces that lie within their takes/);
  refused(['takes', 0, 'events', 0, 'panes', 0, 'which'], 'then', /only clips that its swings have/);
});
