import { BODY_POINT_INFO } from '../../model/body-points.ts';
import type {
  MeasuredReading,
  MissingReading,
  ReadingKey,
  ReadingNote,
  UncertaintySource,
  Verdict,
} from '../../model/reading.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../model/words.ts';
import type { Checkpoint } from '../../model/words.ts';
import { CATALOGUE } from '../catalogue/catalogue.ts';
import { whyWithdrawn } from '../catalogue/where-read.ts';
import type { Judgement } from '../goals/judge-wanted.ts';
import { idleReason } from '../doubts/of-use.ts';

/** A reading's name, e.g. "Trail knee" or "Trail knee, change from address". */
export function labelOf(key: Pick<ReadingKey, 'id' | 'aspect'>): string {
  const { label } = CATALOGUE[key.id];
  return key.aspect === 'change' ? `${label}, change from address` : label;
}

/** Name with where it is read, e.g. "Trail knee at top, face on". */
export function fullLabelOf(key: ReadingKey): string {
  return `${labelOf(key)} at ${CHECKPOINT_LABELS[key.checkpoint].toLowerCase()}, ${VIEW_LABELS[key.view].toLowerCase()}`;
}

export const NOTE_WORDS: Readonly<Record<ReadingNote, string>> = {
  'placing-assumed':
    'The error of a click is assumed (3 px in a picture 1080 lines high) where no repeat check has measured yours.',
  'naming-assumed':
    'Which frame is the takeaway, the top or impact is unsure by a frame or two. The ± allows for that much; it is assumed.',
  'time-jump':
    'The time stamps jump between these frames: frames were dropped, or the clip was cut. Trust the time only if you know which.',
  'head-size-assumed':
    'How much of its box the head fills is assumed, so the ± is wide. Draw a box close round head and cap, and tick that it is the head.',
  'head-turn-assumed':
    'The head is taken as wide as at address, or wider by what a turn makes of it. Draw it on this frame to measure it here.',
  'hidden-point': 'A point it uses was hidden and its place guessed, so the ± is wider.',
  'no-plumb': 'Vertical is that of the picture; mark a plumb line to take out a camera that leans.',
  uncalibrated: 'Pixels of this picture only; mark a known length to get centimetres.',
  'known-length-plane':
    'Centimetres hold in the plane of the known length; the ± allows for a body up to 30 cm off it.',
  'off-known-length-plane':
    "Outside the known length's plane: what is read lies nearer to or farther from the camera; the ± allows for it.",
  'lens-straightened': 'Places were straightened first, as the marked straight edges tell.',
  'plane-from-shaft': 'The incline of the arc was taken from the shaft at address, down the line; the ± allows for it.',
  'no-plane':
    'Nothing down the line tells the incline of the arc: it was fitted as the circle that it looks like, and its radius is too large.',
  'capture-rate-unknown': 'Time as it runs on screen; set the capture rate to get the time of the swing.',
  'capture-rate-unconfirmed': 'The capture rate comes from the file; confirm it.',
  'short-line': 'The points lie so close together that the angle is nearly free.',
  'scale-unsure':
    'The known lengths in this picture give no centimetres: one is too short or lies along the view, or two disagree. Check their lengths, or mark a longer one across the view.',
};

/** What of it a student should read under a still: what holds of the numbers, without what the coach could do. null = nothing. */
export const NOTE_WORDS_ON_STILLS: Readonly<Record<ReadingNote, string | null>> = {
  'placing-assumed': 'The ± allows for points that are placed by hand.',
  'naming-assumed': 'The ± of times allows for a frame or two in naming them.',
  'time-jump': 'The clip misses frames where a time was read.',
  'head-size-assumed': 'How large the head is within its box is assumed; the ± allows for it.',
  'head-turn-assumed': null,
  'hidden-point': 'A point was hidden and its place guessed, so the ± is wider.',
  'no-plumb': 'Vertical is that of the picture.',
  uncalibrated: 'Lengths are in pixels of this picture.',
  'known-length-plane': 'Centimetres hold at the distance of the known length; the ± allows for the depth of a body.',
  'off-known-length-plane': "Outside the known length's plane; the ± allows for it.",
  'lens-straightened': null,
  'plane-from-shaft': 'The incline of the arc was taken from the shaft at address.',
  'no-plane': 'The arc was fitted as it looks.',
  'capture-rate-unknown': 'Times are those of the screen.',
  'capture-rate-unconfirmed': 'Times rest on the capture rate that the file gives.',
  'short-line': null,
  'scale-unsure': null,
};

/** The same in short, to stand beside a number. */
export const NOTE_TAGS: Readonly<Record<ReadingNote, string>> = {
  'placing-assumed': 'click error assumed',
  'naming-assumed': 'a frame or two assumed',
  'time-jump': 'time stamps jump',
  'head-size-assumed': 'size of the head assumed',
  'head-turn-assumed': 'head as at address',
  'hidden-point': 'hidden point guessed',
  'no-plumb': 'true vertical not marked',
  uncalibrated: 'pixels, no known length',
  'known-length-plane': "cm at the known length's distance",
  'off-known-length-plane': 'nearer or farther than the known length',
  'lens-straightened': 'lens bend taken out',
  'plane-from-shaft': 'arc incline from the shaft',
  'no-plane': 'arc incline not known',
  'capture-rate-unknown': 'time as on screen',
  'capture-rate-unconfirmed': 'capture rate not confirmed',
  'short-line': 'points too close together',
  'scale-unsure': 'no scale from the known lengths',
};

/** What a ± is made of. */
export const SOURCE_WORDS: Readonly<Record<UncertaintySource, string>> = {
  placing: 'placing',
  scale: 'known length',
  depth: 'depth',
  plumb: 'plumb',
  ground: 'ground marks',
  lens: 'lens',
  plane: 'incline of the arc',
  time: 'time of frames',
  naming: 'which frame is named',
  head: 'size of the head',
  camera: 'where the camera stands',
  definition: 'where a joint lies',
};

/** What to do about the largest part of a ± that is too wide. */
const NARROWING: Readonly<Record<UncertaintySource, string>> = {
  placing: 'its points lie too close together in this picture. Zoom in to place them, or film from nearer.',
  scale:
    'the known lengths give no scale here: one is too short, or two disagree. Check their lengths, or mark a longer one across the view.',
  depth: 'it lies far from the plane of the known length. Mark a known length where it lies.',
  plumb: 'the plumb is too short. Mark a longer one.',
  ground: 'the ground marks lie too close together. Mark places farther apart.',
  lens: 'the straight edges tell too little of the lens. Mark longer ones nearer to the rim.',
  plane: 'the incline of the arc is too unsure. Follow the clubhead down the line too.',
  time: 'the frames lie too far apart in time. Film with more frames a second.',
  naming: 'which frame is named is unsure for so short a time. Name frames that lie farther apart.',
  head: 'how large the head is was assumed. Draw a box close round head and cap.',
  camera: 'where the camera stands is not told. Mark the ground, and a plumb.',
  definition:
    'where its joints lie under a shirt is a matter of centimetres, and they lie close together in this picture.',
};

/** Why a number is not worth showing, and what to do, as one sentence or two; empty where it is. */
export function idleWords(reading: MeasuredReading): string {
  const reason = idleReason(reading);
  if (reason === null) return '';
  if (reason !== 'too-wide') return NOTE_WORDS[reason];
  const [largest] = reading.budget;
  return `Can't tell: the ± is too wide, because ${NARROWING[largest?.source ?? 'placing']}`;
}

/** How the ± was found, as a sentence and in short. */
export const METHOD_WORDS: Readonly<Record<MeasuredReading['method'], string>> = {
  'first-order':
    'The ± comes from the formula: how far the number goes when each place or time is off by its error (first order).',
  'monte-carlo':
    'The ± comes from trials: the number was worked out again and again with all places off at random (Monte Carlo).',
};
export const METHOD_TAGS: Readonly<Record<MeasuredReading['method'], string>> = {
  'first-order': '± worked out',
  'monte-carlo': '± tried out',
};

/** What it means to stand inside a wanted range, outside of it, or neither, for a hint beside it. */
export const JUDGEMENT_MEANINGS: Readonly<Record<Judgement, string>> = {
  inside: 'The number lies in the wanted range with all of its ±.',
  outside: 'The number lies outside the wanted range with all of its ±.',
  "can't tell": 'A limit of the wanted range lies within the ± of the number.',
};

/** Why a reading is missing and what to do, as one sentence. */
export function missingWords(reading: MissingReading): string {
  const { needs } = reading;
  const at = (name: Checkpoint) => CHECKPOINT_LABELS[name].toLowerCase();
  switch (reading.reason) {
    case 'checkpoint-not-named':
      return `Name the frame of ${listed(needs.checkpoints.map(at))}.`;
    case 'points-missing': {
      const places = [...new Set(needs.points.map((need) => need.checkpoint))];
      const parts = places.map((place) => {
        const points = needs.points.filter((need) => need.checkpoint === place);
        return `${listed(points.map(({ point }) => BODY_POINT_INFO[point].label.toLowerCase()))} at ${at(place)}`;
      });
      return `Place ${listed(parts)}.`;
    }
    case 'shape-missing':
      return 'Draw a head box on the frame of address.';
    case 'same-place':
      return 'Two points lie on one another; move one of them to its place.';
    case 'wrong-order': {
      const [before = 'address', after = reading.checkpoint] = needs.checkpoints;
      return `${CHECKPOINT_LABELS[before]} is named on the frame of ${at(after)} or after it. Name the two again.`;
    }
    case 'capture-rate-unknown':
      return 'Set the capture rate of the clip.';
    case 'known-length-missing':
      return 'Mark a known length: a line whose real length you know.';
    case 'path-missing': {
      const { path } = needs;
      const frames = String(path?.frames ?? 0);
      return `Follow the clubhead with the Path tool on ${frames} frames or more round ${at(path?.round ?? 'impact')}.`;
    }
    case 'arc-too-short':
      return `The clubhead's path${roundWords(needs, at)} covers too little of its arc; follow it on more frames, or film with more of them.`;
    case 'no-low-point':
      return `The clubhead's path${roundWords(needs, at)} ends too far from its lowest place; follow it on past that.`;
    case 'frames-too-few':
      return 'Speed needs 120 true frames a second or more.';
    case 'frame-turn':
      return 'The club turns so far within a frame that its blur hides where it is; film with more frames a second.';
    case 'ground-missing':
      return 'Mark four or more places on the ground whose distances you know.';
    case 'ground-mixed-up':
      return 'The ground marks lie as for a player of the other hand; check which place is which.';
    case 'withdrawn':
      return `No longer read here. ${whyWithdrawn(reading) ?? 'It was not true of the body.'}`;
    case 'over-horizon':
      return 'A point of the foot is seen where no ground is; check it and the ground marks.';
  }
}

/** Which part of the path is meant: round impact, or away from the ball. */
function roundWords({ path }: MissingReading['needs'], at: (name: Checkpoint) => string): string {
  return path === undefined ? '' : ` round ${at(path.round)}`;
}

export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  changed: 'changed',
  'no change': 'no change',
  "can't tell": "can't tell",
  'worth a look': 'worth a look',
};

/** What a verdict means, for a hint beside it. */
export const VERDICT_MEANINGS: Readonly<Record<Verdict, string>> = {
  changed: 'You asked about it beforehand, and the difference is larger than its ±.',
  'no change':
    'The difference, with 95 % of what it may be, stays under the tolerance of the goals: nothing changed that matters.',
  "can't tell": 'The difference may be chance, and it is too unsure to say that nothing changed.',
  'worth a look':
    'Nobody asked about it beforehand, but it stands out among all that was compared. Of 20 such about one is chance. ' +
    'Choose it for the stills to ask about it next time.',
};

/** "a", "a and b", "a, b and c". */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}
