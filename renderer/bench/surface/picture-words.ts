import type { BenchPicture } from '../../shell/state/app-state.ts';

/** What is seen of the frame on the bench; while it is coming, another frame's picture is. */
export function pictureWords(picture: BenchPicture, running: boolean, index: number): string {
  switch (picture) {
    case 'coming':
      return running ? 'Quick picture' : `Frame ${String(index)} is coming`;
    case 'quick':
      return running ? 'Quick picture' : 'Quick picture, the exact one is coming';
    case 'exact':
      return 'Exact picture';
    case 'none':
      return 'No picture of this frame';
  }
}

/** Of marks that were placed before the picture was on screen; nothing where there are none. */
export function aheadWords(count: number, picture: BenchPicture): string {
  if (count === 0) return '';
  const what = count === 1 ? '1 mark' : `${String(count)} marks`;
  if (picture === 'coming' || picture === 'none') return `${what} placed ahead of it`;
  return `${what} placed before this picture came: look at the dotted ${count === 1 ? 'ring' : 'rings'}`;
}
