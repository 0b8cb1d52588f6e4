import { expect, test } from 'vitest';
import { EMPTY_PAGE } from '../../../core/model/lesson-page.ts';
import { talkClosing } from '../../../core/parse/talk.ts';
import { talkLength } from '../../../core/talk/talk-time.ts';
import { closingOf, wholeTalk } from '../../../core/talk/whole-talk.ts';
import { argument } from '../../../core/parse/argument.ts';
import { sampleTalk } from './sample-talk.ts';

const [first, second] = sampleTalk().takes;
const closing = { thoughts: [], drill: null };

test('without a take that can be seen there is no talk-through', () => {
  expect(wholeTalk([], [], closing)).toBeNull();
  expect(wholeTalk([null], [], closing)).toBeNull();
});

test('a later take comes in by its edit alone, and one of which nothing is left changes nothing', () => {
  const takes = [first ?? null, null, second ?? null];
  expect(wholeTalk(takes, [], closing)?.pieces).toEqual([{ take: 0, from: 0, to: 10_000 }]);
  const anew = wholeTalk(takes, [{ kind: 'retake', from: 3000, take: 2 }], closing);
  expect(anew?.pieces).toEqual([
    { take: 0, from: 0, to: 3000 },
    { take: 2, from: 0, to: 4000 },
  ]);
  const lost = wholeTalk(takes, [{ kind: 'retake', from: 3000, take: 1 }], closing);
  expect(lost === null ? 0 : talkLength(lost)).toBe(10_000);
});

test('the closing card says what the lesson page says, in lines that a file may hold', () => {
  const drill = {
    ...{ id: 'a', title: 'Feet\ntogether', steps: ['Stand.', ' ', 'x'.repeat(600)], counts: '3 times 10', caution: '' },
    sketch: [],
  };
  const card = closingOf({ ...EMPTY_PAGE, keyThoughts: ['Stay tall.', '', 'Turn\nfirst.'], drills: [drill] });
  expect(card.thoughts).toEqual(['Stay tall.', 'Turn first.']);
  expect(card.drill?.title).toBe('Feet together');
  expect(card.drill?.steps).toEqual(['Stand.', 'x'.repeat(400), '3 times 10']);
  expect(argument(talkClosing, card, 'the card')).toEqual(card);
  expect(closingOf(EMPTY_PAGE)).toEqual({ thoughts: [], drill: null });
});
