import { LANGUAGE } from '../../model/language.ts';
import { say } from '../../model/say.ts';
import { READING_IDS } from '../../model/reading.ts';
import type { ReadingId } from '../../model/reading.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS } from '../../model/words.ts';
import type { Checkpoint } from '../../model/words.ts';
import { CATALOGUE } from '../catalogue/catalogue.ts';
import { isWithdrawn } from '../catalogue/where-read.ts';
import { JUDGEMENT_MEANINGS, JUDGEMENT_WORDS, VERDICT_MEANINGS, VERDICT_WORDS } from './words.ts';

/** What the words of the program mean: one source for the glossary and for the hint where a word stands. */

/** When each checkpoint is, so that two people name the same frame. */
export const CHECKPOINT_MEANINGS: Readonly<Record<Checkpoint, string>> = {
  address: say`The last frame before anything moves.`,
  takeaway: say`On the way back, the first frame with the shaft level with the ground.`,
  'lead-arm-level': say`On the way back, the first frame with the lead hand as high as the lead shoulder.`,
  top: say`The frame where the club has gone farthest back, before it starts down.`,
  'lead-arm-level-down': say`On the way down, the first frame with the lead hand below the lead shoulder.`,
  impact: say`The last frame with the ball still at rest.`,
  through: say`After impact, the first frame with the shaft level with the ground.`,
  finish: say`The first frame on which the player stands still at the end.`,
};

export const TERMS = {
  plusMinus: {
    term: '±',
    means: say`How sure a number is. Marked again and again, 19 of 20 such numbers would lie within it.`,
  },
  reading: { term: say`Reading`, means: say`A number read from your marks, with its unit and its ±.` },
  clickError: {
    term: say`Click error`,
    means: say`How far a point you place is off. A repeat check measures yours; until then 3 pixels is assumed.`,
  },
  repeatCheck: {
    term: say`Repeat check`,
    means: say`You click points of marked frames again, without seeing the earlier ones. It measures your click error.`,
  },
  plumb: {
    term: say`Plumb`,
    means: say`A mark along something upright, such as a door frame. It gives the true vertical, however the camera stood.`,
  },
  trueVertical: { term: say`True vertical`, means: say`Straight up and down in the bay. A plumb or a level gives it.` },
  level: {
    term: say`Level`,
    means: say`A mark along something level and square to the camera, such as a window sill. It gives the true vertical too.`,
  },
  knownLength: {
    term: say`Known length`,
    means: say`A mark along something you can measure, such as a club. It gives real lengths at its own distance.`,
  },
  groundMarks: {
    term: say`Ground marks`,
    means: say`Four or more spots on the ground whose distances you know. They give true angles on the ground, and where the camera stood.`,
  },
  realRate: {
    term: say`Real rate`,
    means: say`How many frames a second the camera took. Slow motion plays slower than that, so times need it.`,
  },
  tolerance: {
    term: say`Tolerance`,
    means: say`How much a reading may differ before it matters to you. Below it the verdict is “no change”.`,
  },
  goals: {
    term: say`Goals`,
    means: say`Your own list of where readings should be, with what a miss does. Those that ship are one example among others.`,
  },
  lead: { term: say`Lead`, means: say`The side nearer the target: left for a right-handed player.` },
  trail: { term: say`Trail`, means: say`The side farther from the target: right for a right-handed player.` },
  hidden: {
    term: say`Hidden`,
    means: say`You had to guess this spot because something covers it. Its click error counts three times as much.`,
  },
  arcAndClubRadius: {
    term: say`Arc radius and club radius`,
    means: say`Arc radius is the size of the circle the clubhead runs on. Club radius is lead shoulder to clubhead, compared with address.`,
  },
  shoulderCentre: { term: say`Shoulder centre`, means: say`Where the neck meets the back, between the shoulders.` },
  hipCentre: { term: say`Hip centre`, means: say`The middle between both hip joints.` },
  clubLengths: {
    term: say`Club lengths`,
    means: say`A length as a multiple of the shaft at address, where no length is known.`,
  },
  chain: {
    term: say`Chain`,
    means: say`Readings put in an order of cause and effect, in the words of your goals. Baybook shows which of them are there.`,
  },
  then: { term: say`Then`, means: say`The earlier of two swings, drawn in dashed orange.` },
  now: { term: say`Now`, means: say`The later of two swings, drawn in solid blue.` },
  downTheLine: { term: say`Down the line`, means: say`Filmed from behind the player, along the target line.` },
  faceOn: { term: say`Face on`, means: say`Filmed from in front of the player, square to the target line.` },
} as const satisfies Record<string, { readonly term: string; readonly means: string }>;

/** What coaches call a reading, where that is another word than ours. */
const ALSO_CALLED: Partial<Readonly<Record<ReadingId, string>>> = {
  'back-incline': say`spine angle, forward bend`,
  'neck-over-back': say`neck angle`,
  'shoulder-to-spine': say`shoulder plane`,
  'shoulder-line': say`shoulder tilt`,
  'hip-line': say`hip tilt`,
  'side-tilt': say`side bend`,
  'shaft-incline': say`shaft lean, lie`,
  'hip-depth': say`keeping the seat back`,
  'lead-flare': say`toe flare`,
  'trail-flare': say`toe flare`,
  'toe-line': say`foot alignment`,
};

/** A reading in words: what coaches call it, and what is measured. */
export function readingMeaning(id: ReadingId): string {
  const also = ALSO_CALLED[id];
  const { formula, sign } = CATALOGUE[id];
  const signs = sign === null ? '' : say` Plus: ${sign.plus}. Minus: ${sign.minus}.`;
  return `${also === undefined ? '' : say`Also called ${also}. `}${formula}${signs}`;
}

export interface GlossaryEntry {
  readonly term: string;
  readonly means: string;
}

export interface GlossaryPart {
  readonly title: string;
  readonly entries: readonly GlossaryEntry[];
}

/** All of it, part by part. */
export function glossary(): readonly GlossaryPart[] {
  const named = <Id extends string>(meanings: Readonly<Record<Id, string>>, words: Readonly<Record<Id, string>>) =>
    (Object.keys(meanings) as Id[]).map((id): GlossaryEntry => ({ term: capital(words[id]), means: meanings[id] }));
  return [
    {
      title: say`Words`,
      entries: Object.values(TERMS).toSorted((one, other) => one.term.localeCompare(other.term, LANGUAGE)),
    },
    {
      title: say`Checkpoints`,
      entries: CHECKPOINTS.map((id) => ({ term: CHECKPOINT_LABELS[id], means: CHECKPOINT_MEANINGS[id] })),
    },
    { title: say`Verdicts on a change`, entries: named(VERDICT_MEANINGS, VERDICT_WORDS) },
    { title: say`Against your goals`, entries: named(JUDGEMENT_MEANINGS, JUDGEMENT_WORDS) },
    {
      title: say`Readings`,
      entries: READING_IDS.filter((id) => !isWithdrawn(id)).map((id) => ({
        term: CATALOGUE[id].label,
        means: readingMeaning(id),
      })),
    },
  ];
}

/** The parts with only what speaks of the text; all of it for an empty one. */
export function glossaryWith(text: string): readonly GlossaryPart[] {
  const wanted = text.trim().toLowerCase();
  return glossary().flatMap(({ title, entries }) => {
    const found = entries.filter(({ term, means }) => `${term} ${means}`.toLowerCase().includes(wanted));
    return found.length === 0 ? [] : [{ title, entries: found }];
  });
}

function capital(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}
