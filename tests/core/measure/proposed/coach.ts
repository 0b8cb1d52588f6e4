import { learnErrors } from '../../../../core/measure/proposed/learn-errors.ts';
import type { LearntError } from '../../../../core/measure/proposed/learn-errors.ts';
import { showLearnt } from '../../../../core/measure/proposed/show-learnt.ts';
import type { PicturePoint } from '../../../../core/model/mark.ts';
import type { Correction, ProposedPoint } from '../../../../core/model/proposed-points.ts';
import type { Checkpoint, Handedness, View } from '../../../../core/model/words.ts';
import { seeded } from '../../../support/seeded.ts';

/** A reality of which the program sees corrections alone. */
export interface Truth {
  /** Where the coach's place lies from the model's, thousandths of the square, toward the target or ball and down. */
  readonly offset: PicturePoint;
  /** Standard deviations as parts of the assumed one: of a lesson (player, clothes), and of each frame besides. */
  readonly lesson: number;
  readonly frame: number;
  /** Nobody corrects less than about this, pixels; it differs from time to time by a third. */
  readonly lets: number;
  /** How often a frame is accepted unseen. */
  readonly unseen: number;
}

export const SIZE = 700;
export const ASSUMED = 12.6;
const AT = '2026-11-30T12:00:00.000Z';
const FRAMES = 3;

export function coachOf(truth: Truth, seed: number, view: View = 'face-on', checkpoint: Checkpoint | null = 'top') {
  const random = seeded(seed);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  let lessons = 0;

  /** Where the model sees the point and where the coach means it, on the frames of a lesson. */
  function lesson(handedness: Handedness, errors: readonly LearntError[]) {
    lessons += 1;
    const side = handedness === 'right' ? 1 : -1;
    const scale = (part: number): number => part * ASSUMED * normal();
    const [x, y] = [scale(truth.lesson), scale(truth.lesson)];
    return Array.from({ length: FRAMES }, () => {
      const model = { x: 900 * random(), y: 900 * random() };
      const meant = {
        x: model.x + (side * truth.offset.x * SIZE) / 1000 + x + scale(truth.frame),
        y: model.y + (truth.offset.y * SIZE) / 1000 + y + scale(truth.frame),
      };
      const shown = showLearnt(
        'lead-hip',
        { ...model, guess: ASSUMED },
        { view, handedness, checkpoint, size: SIZE, at: AT },
        errors,
      );
      return { shown, meant, lessonId: String(lessons), handedness };
    });
  }

  /** What is corrected of a lesson: what lies too far, on frames that were looked at. */
  function corrections(frames: ReturnType<typeof lesson>): readonly Correction[] {
    return frames.flatMap(({ shown, meant, lessonId, handedness }) => {
      const lets = truth.lets * Math.exp(normal() / 3);
      const isSeen = random() >= truth.unseen;
      if (!isSeen || Math.hypot(meant.x - shown.x, meant.y - shown.y) < lets) return [];
      // Put there with a click error of a pixel and a half.
      const placed = { x: meant.x + 1.5 * normal(), y: meant.y + 1.5 * normal() };
      return [{ point: 'lead-hip', view, handedness, checkpoint, lessonId, placed, proposed: shown.proposed } as const];
    });
  }
  return { lesson, corrections };
}

/** Lessons one after the other, with what was learnt from those before. */
export function coached(truth: Truth, count: number, seed: number, hands: readonly Handedness[] = ['right']) {
  const coach = coachOf(truth, seed);
  const all: Correction[] = [];
  let errors: readonly LearntError[] = [];
  for (let number = 0; number < count; number += 1) {
    all.push(...coach.corrections(coach.lesson(hands[number % hands.length] ?? 'right', errors)));
    // Not after each lesson, to be quick.
    if (number % 10 === 7) errors = learnErrors(all);
  }
  return { coach, corrections: all, errors: learnErrors(all) };
}

/** Of points that were accepted unseen, the part whose coordinate lies within its 95 %. */
export function held(points: readonly { readonly shown: ProposedPoint; readonly meant: PicturePoint }[]): number {
  const inside = points.flatMap(({ shown, meant }) =>
    [meant.x - shown.x, meant.y - shown.y].map((off) => Math.abs(off) <= 1.96 * shown.guess),
  );
  return inside.filter(Boolean).length / inside.length;
}
