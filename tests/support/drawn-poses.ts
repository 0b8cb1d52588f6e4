import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { Checkpoint, Handedness, View } from '../../core/model/words.ts';

/** What the pose model saw of an invented player on one frame, against the truth of the scene. */
export interface PoseFrame {
  readonly player: number;
  readonly view: View;
  readonly checkpoint: Checkpoint;
  readonly handedness: Handedness;
  /** Side of the square in which it saw the body, pixels. */
  readonly size: number;
  /**
   * Of each point, thousandths of the square: how far its true place lies from the model's, toward the target (face on) or the ball
   * (down the line) and down; and the standard deviation that is assumed.
   */
  readonly points: Readonly<Partial<Record<BodyPointId, readonly [x: number, y: number, assumed: number]>>>;
}

/** Made by `npm run poses`: the model takes half a minute a player. */
export const DRAWN_POSES: readonly PoseFrame[] = readFileSync(join(import.meta.dirname, 'drawn-poses.jsonl'), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line) as PoseFrame);
