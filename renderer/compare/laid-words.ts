import { say } from '../../core/model/say.ts';
import type { LaidOver } from '../../core/compare/lay-over.ts';

const BY_SIZE = say`Lined up by the size of the pictures. Place the ball and both feet at address in both to line up on those.`;
const BY_GROUND = say`Lined up on the ball and feet at address.`;
const MIRRORED = say`The earlier picture is mirrored, since it was played from the other side.`;

/** What the overlay goes by. */
export function laidWords({ by, mirrored }: Pick<LaidOver, 'by' | 'mirrored'>): string {
  return [by === 'ground' ? BY_GROUND : BY_SIZE, ...(mirrored ? [MIRRORED] : [])].join(' ');
}
