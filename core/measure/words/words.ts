import { lowered, say } from '../../model/say.ts';
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
  return key.aspect === 'change' ? say`${label}, change from address` : label;
}

/** Name with where it is read, e.g. "Trail knee at top, face on". */
export function fullLabelOf(key: ReadingKey): string {
  return say`${labelOf(key)} at ${lowered(CHECKPOINT_LABELS[key.checkpoint])}, ${lowered(VIEW_LABELS[key.view])}`;
}

export const NOTE_WORDS: Readonly<Record<ReadingNote, string>> = {
  'placing-assumed': say`Your click error isn't measured yet, so 3 pixels is assumed (in a picture 1080 lines high). A repeat check measures it.`,
  'naming-assumed': say`Which frame is the takeaway, the top or impact is unsure by a frame or two. The ± allows for that much; it is assumed.`,
  'time-jump': say`Frames are missing here, or the clip was cut. Trust this time only if you know which.`,
  'head-size-assumed': say`How much of its box the head fills is assumed, so the ± is wide. Draw a box close round head and cap, and tick “This is the head”.`,
  'head-turn-assumed': say`The head is taken as wide as at address, or wider by what a turn makes of it. Draw it on this frame to measure it here.`,
  'hidden-point': say`A point it uses was hidden and its place guessed, so the ± is wider.`,
  'proposed-point': say`A point it uses stands where it was proposed, so the ± holds the error of such places. Move it to where you see it.`,
  'no-plumb': say`Vertical is the picture's edge. Mark a plumb line to correct a tilted camera.`,
  uncalibrated: say`Pixels of this picture only. Mark a known length to get real lengths.`,
  'known-length-plane': say`True at the known length's distance; the ± allows for the body being 30 cm nearer or farther.`,
  'off-known-length-plane': say`Nearer to or farther from the camera than the known length; the ± allows for it.`,
  'lens-straightened': say`The bend of the lens was taken out first, by the straight edges you marked.`,
  'plane-from-shaft': say`The tilt of the arc was taken from the shaft at address, down the line; the ± allows for it.`,
  'no-plane': say`The tilt of the arc is unknown, so its radius reads too large. Follow the clubhead down the line too.`,
  'capture-rate-unknown': say`Time as it runs on screen, not real time. Set the real rate to get the time of the swing.`,
  'capture-rate-unconfirmed': say`The real rate comes from the file. Confirm it.`,
  'short-line': say`These points are too close together for a usable angle.`,
  'scale-unsure': say`The known lengths in this picture give no centimetres: one is too short or lies along the view, or two disagree. Check their lengths, or mark a longer one across the view.`,
};

/** What of it a student should read under a still: what holds of the numbers, without what the coach could do. null = nothing. */
export const NOTE_WORDS_ON_STILLS: Readonly<Record<ReadingNote, string | null>> = {
  'placing-assumed': say`The ± allows for points placed by hand.`,
  'naming-assumed': say`The ± of times allows for a frame or two in naming them.`,
  'time-jump': say`The clip misses frames where a time was read.`,
  'head-size-assumed': say`How large the head is within its box is assumed; the ± allows for it.`,
  'head-turn-assumed': null,
  'hidden-point': say`A point was hidden and its place guessed, so the ± is wider.`,
  'proposed-point': say`A point was found by the program and not moved, so the ± holds the error of such places.`,
  'no-plumb': say`Vertical is the picture's edge.`,
  uncalibrated: say`Lengths are in pixels of this picture.`,
  'known-length-plane': say`Lengths are true at the known length's distance; the ± allows for the depth of a body.`,
  'off-known-length-plane': say`Nearer or farther than the known length; the ± allows for it.`,
  'lens-straightened': null,
  'plane-from-shaft': say`The tilt of the arc was taken from the shaft at address.`,
  'no-plane': say`The tilt of the arc is unknown, so its radius reads too large.`,
  'capture-rate-unknown': say`Times are slow-motion playback, not real time.`,
  'capture-rate-unconfirmed': say`Times rest on the rate that the file gives.`,
  'short-line': null,
  'scale-unsure': null,
};

/** The same in short, to stand beside a number. */
export const NOTE_TAGS: Readonly<Record<ReadingNote, string>> = {
  'placing-assumed': say`click error assumed`,
  'naming-assumed': say`a frame or two assumed`,
  'time-jump': say`time stamps jump`,
  'head-size-assumed': say`size of the head assumed`,
  'head-turn-assumed': say`head as at address`,
  'hidden-point': say`hidden point guessed`,
  'proposed-point': say`point as proposed`,
  'no-plumb': say`true vertical not marked`,
  uncalibrated: say`pixels, no known length`,
  'known-length-plane': say`true at the known length's distance`,
  'off-known-length-plane': say`nearer or farther than the known length`,
  'lens-straightened': say`lens bend taken out`,
  'plane-from-shaft': say`arc tilt from the shaft`,
  'no-plane': say`arc tilt not known`,
  'capture-rate-unknown': say`not real time`,
  'capture-rate-unconfirmed': say`real rate not confirmed`,
  'short-line': say`points too close together`,
  'scale-unsure': say`no scale from the known lengths`,
};

/** What a ± is made of. */
export const SOURCE_WORDS: Readonly<Record<UncertaintySource, string>> = {
  placing: say`click error`,
  scale: say`known length`,
  depth: say`depth`,
  plumb: say`plumb`,
  ground: say`ground marks`,
  lens: say`lens`,
  plane: say`tilt of the arc`,
  time: say`time of frames`,
  naming: say`which frame is named`,
  head: say`size of the head`,
  camera: say`where the camera stands`,
  definition: say`where a joint lies`,
};

/** What to do about the largest part of a ± that is too wide. */
const NARROWING: Readonly<Record<UncertaintySource, string>> = {
  placing: say`its points lie too close together in this picture. Zoom in to place them, or film from nearer.`,
  scale: say`the known lengths give no scale here: one is too short, or two disagree. Check their lengths, or mark a longer one across the view.`,
  depth: say`it lies far from the plane of the known length. Mark a known length where it lies.`,
  plumb: say`the plumb is too short. Mark a longer one.`,
  ground: say`the ground marks lie too close together. Mark places farther apart.`,
  lens: say`the straight edges tell too little of the lens. Mark longer ones nearer the edge of the picture.`,
  plane: say`the tilt of the arc is too unsure. Follow the clubhead down the line too.`,
  time: say`the frames lie too far apart in time. Film with more frames a second.`,
  naming: say`which frame is named is unsure for so short a time. Name frames that lie farther apart.`,
  head: say`how large the head is was assumed. Draw a box close round head and cap.`,
  camera: say`where the camera stood is not known. Mark the ground, and a plumb.`,
  definition: say`where its joints lie under a shirt is a matter of centimetres, and they lie close together in this picture.`,
};

/** Why a number is not worth showing, and what to do, as one sentence or two; empty where it is. */
export function idleWords(reading: MeasuredReading): string {
  const reason = idleReason(reading);
  if (reason === null) return '';
  if (reason !== 'too-wide') return NOTE_WORDS[reason];
  const [largest] = reading.budget;
  return say`Can't tell: the ± is too wide, because ${NARROWING[largest?.source ?? 'placing']}`;
}

/** How the ± was found, as a sentence and in short. */
export const METHOD_WORDS: Readonly<Record<MeasuredReading['method'], string>> = {
  'first-order': say`The ± is calculated: how far the number goes when each point or time is off by its error (first order).`,
  'monte-carlo': say`The ± is simulated: the number is read again and again with every point off at random (Monte Carlo).`,
};
export const METHOD_TAGS: Readonly<Record<MeasuredReading['method'], string>> = {
  'first-order': say`± calculated`,
  'monte-carlo': say`± simulated`,
};

/** How a reading can stand to its goal. */
export const JUDGEMENT_WORDS: Readonly<Record<Judgement, string>> = {
  'on target': say`on target`,
  'too low': say`too low`,
  'too high': say`too high`,
  'too close to call': say`too close to call`,
};

/** The same for a hint beside it. */
export const JUDGEMENT_MEANINGS: Readonly<Record<Judgement, string>> = {
  'on target': say`On target, with all of its ±.`,
  'too low': say`Below the goal, with all of its ±.`,
  'too high': say`Above the goal, with all of its ±.`,
  'too close to call': say`Too close to call: a limit of the goal lies within the ±.`,
};

/** Why a reading is missing and what to do, as one sentence. */
export function missingWords(reading: MissingReading): string {
  const { needs } = reading;
  const at = (name: Checkpoint) => lowered(CHECKPOINT_LABELS[name]);
  switch (reading.reason) {
    case 'checkpoint-not-named':
      return say`Name the frame of ${listed(needs.checkpoints.map(at))}.`;
    case 'points-missing': {
      const places = [...new Set(needs.points.map((need) => need.checkpoint))];
      const parts = places.map((place) => {
        const points = needs.points.filter((need) => need.checkpoint === place);
        return say`${listed(points.map(({ point }) => lowered(BODY_POINT_INFO[point].label)))} at ${at(place)}`;
      });
      return say`Place ${listed(parts)}.`;
    }
    case 'shape-missing':
      return say`Draw a head box on the frame of address.`;
    case 'same-place':
      return say`Two points are in one place. Move one of them.`;
    case 'wrong-order': {
      const [before = 'address', after = reading.checkpoint] = needs.checkpoints;
      return say`${CHECKPOINT_LABELS[before]} is named on the frame of ${at(after)} or after it. Name the two again.`;
    }
    case 'capture-rate-unknown':
      return say`Set the real rate of the clip.`;
    case 'known-length-missing':
      return say`Mark a known length: draw a line along something you can measure.`;
    case 'path-missing': {
      const { path } = needs;
      const frames = String(path?.frames ?? 0);
      return say`Follow the clubhead with the Path tool on ${frames} frames or more round ${at(path?.round ?? 'impact')}.`;
    }
    case 'arc-too-short':
      return say`The clubhead's path${roundWords(needs, at)} covers too little of its arc; follow it on more frames, or film with more of them.`;
    case 'no-low-point':
      return say`The clubhead's path${roundWords(needs, at)} ends too far from its lowest place; follow it on past that.`;
    case 'frames-too-few':
      return say`Speed needs 120 true frames a second or more.`;
    case 'frame-turn':
      return say`The club turns so far within a frame that its blur hides where it is; film with more frames a second.`;
    case 'ground-missing':
      return say`Mark the ground: four or more spots whose distances you know.`;
    case 'ground-mixed-up':
      return say`These marks fit a player of the opposite handedness. Check the order you clicked, or the lesson's handedness.`;
    case 'withdrawn':
      return say`No longer read here. ${whyWithdrawn(reading) ?? say`It was not true of the body.`}`;
    case 'over-horizon':
      return say`A heel or toe point is above the horizon. Check it and the ground marks.`;
  }
}

/** Which part of the path is meant: round impact, or away from the ball. */
function roundWords({ path }: MissingReading['needs'], at: (name: Checkpoint) => string): string {
  return path === undefined ? '' : say` round ${at(path.round)}`;
}

export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  changed: say`changed`,
  'no change': say`no change`,
  "can't tell": say`can't tell`,
  'worth a look': say`worth a look`,
};

/** What a verdict means, for a hint beside it. */
export const VERDICT_MEANINGS: Readonly<Record<Verdict, string>> = {
  changed: say`You asked about it beforehand, and it changed by more than the ±.`,
  'no change': say`Smaller than your tolerance: no real change.`,
  "can't tell": say`Could be a change, could be measuring error.`,
  'worth a look': say`Nobody asked about it beforehand, but it stands out among all that was compared. Of 20 such about one is chance. Choose it for the stills to ask about it next time.`,
};

/** "a", "a and b", "a, b and c". */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : say`${words.slice(0, -1).join(', ')} and ${last}`;
}
