import type { LaidOver } from '../../core/compare/lay-over.ts';

const BY_SIZE =
  'Lined up by the size of the pictures. Place the ball and both feet at address in both to line up on those.';
const BY_GROUND = 'Lined up on the ball and feet at address.';
const MIRRORED = 'The earlier picture is mirrored, since it was played from the other side.';

/** What the overlay goes by. */
export function laidWords({ by, mirrored }: Pick<LaidOver, 'by' | 'mirrored'>): string {
  return [by === 'ground' ? BY_GROUND : BY_SIZE, ...(mirrored ? [MIRRORED] : [])].join(' ');
}
