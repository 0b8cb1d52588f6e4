import { say } from '../../../core/model/say.ts';
import type { BenchPicture } from '../../shell/state/app-state.ts';

/** What is seen of the frame on the bench; while it is coming, another frame's picture is. */
export function pictureWords(picture: BenchPicture, running: boolean, index: number): string {
  switch (picture) {
    case 'coming':
      return running ? say`Quick picture` : say`Frame ${String(index)} is coming`;
    case 'quick':
      return running ? say`Quick picture` : say`Quick picture, the exact one is coming`;
    case 'exact':
      return say`Exact picture`;
    case 'none':
      return say`No picture of this frame`;
  }
}

/** Of marks that were placed before the picture was on screen; nothing where there are none. */
export function aheadWords(count: number, picture: BenchPicture): string {
  if (count === 0) return '';
  const what = count === 1 ? say`1 mark` : say`${String(count)} marks`;
  if (picture === 'coming' || picture === 'none') return say`${what} placed ahead of it`;
  return count === 1
    ? say`${what} placed before this picture came: look at the dotted ring`
    : say`${what} placed before this picture came: look at the dotted rings`;
}
