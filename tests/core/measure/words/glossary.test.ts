import { describe, expect, it, test } from 'vitest';
import { isWithdrawn } from '../../../../core/measure/catalogue/where-read.ts';
import { BODIES, CONSENT, DISTANCE, PAIN, SENDING } from '../../../../core/measure/words/cautions.ts';
import { labelOf } from '../../../../core/measure/words/format.ts';
import { glossary, glossaryWith, readingMeaning, TERMS } from '../../../../core/measure/words/glossary.ts';
import { JUDGEMENT_MEANINGS, VERDICT_MEANINGS } from '../../../../core/measure/words/words.ts';
import { READING_IDS } from '../../../../core/model/reading.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS } from '../../../../core/model/words.ts';

const entries = glossary().flatMap((part) => part.entries);
const meaningOf = (term: string): string => {
  const found = entries.filter((each) => each.term.toLowerCase() === term.toLowerCase());
  if (found.length !== 1) throw new Error(`${term}: ${String(found.length)} entries`);
  return found[0]?.means ?? '';
};
/** What is said between full stops; an abbreviation would count as an end and only make it shorter. */
const sentences = (text: string): readonly string[] => text.split(/[.:](?: |$)/).filter((part) => part.trim() !== '');

describe('the glossary', () => {
  it('has every reading that is shown by the label that it is shown with', () => {
    for (const id of READING_IDS.filter((each) => !isWithdrawn(each)))
      expect(meaningOf(labelOf({ id, aspect: 'value' }))).toBe(readingMeaning(id));
  });

  it('has every checkpoint, each verdict and each way to stand to a goal', () => {
    for (const id of CHECKPOINTS) expect(meaningOf(CHECKPOINT_LABELS[id])).toMatch(/\.$/);
    for (const words of [...Object.keys(VERDICT_MEANINGS), ...Object.keys(JUDGEMENT_MEANINGS)])
      expect(meaningOf(words)).not.toBe('');
  });

  it('has the words that a coach may not know', () => {
    for (const term of ['±', 'Reading', 'Plumb', 'Known length', 'Ground marks', 'Tolerance', 'Lead', 'Trail', 'Level'])
      expect(meaningOf(term)).not.toBe('');
    for (const term of ['Real rate', 'Arc radius and club radius', 'Hidden', 'Click error', 'Goals', 'True vertical'])
      expect(meaningOf(term)).not.toBe('');
  });

  it('says each thing once, in sentences of 30 words at most', () => {
    expect(new Set(entries.map(({ term }) => term)).size).toBe(entries.length);
    const long = entries.flatMap(({ means }) => sentences(means)).filter((each) => each.split(/\s+/).length > 30);
    expect(long).toEqual([]);
  });

  it('is searched by word and by meaning, in any case; what fits nothing leaves nothing', () => {
    expect(glossaryWith('')).toEqual(glossary());
    expect(glossaryWith('SPINE ANGLE').flatMap((part) => part.entries.map(({ term }) => term))).toEqual([
      'Back incline',
    ]);
    expect(glossaryWith('door frame')[0]?.entries).toContainEqual(TERMS.plumb);
    expect(glossaryWith('xyzzy')).toEqual([]);
  });
});

test('the program gives no judgement of its own in what it says of a reading', () => {
  for (const id of READING_IDS)
    expect(readingMeaning(id)).not.toMatch(/too (flat|steep)|thrown|ground first|\bshould\b/i);
});

test('cautions send a coach to a doctor or physiotherapist, and promise nothing about what is shown', () => {
  expect(PAIN).toContain('a doctor or physiotherapist');
  expect([CONSENT, SENDING].every((each) => /child/.test(each))).toBe(true);
  expect(SENDING).toContain('face');
  expect(BODIES).toContain('Never force a position');
  expect(DISTANCE).toContain('local law');
});
