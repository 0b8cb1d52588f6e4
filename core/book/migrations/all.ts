import type { Migration } from '../migrate.ts';
import { first } from './0001-first.ts';
import { keptSpan } from './0002-kept-span.ts';
import { settledTable } from './0003-settled.ts';
import { editsAndPins } from './0004-edits-and-pins.ts';
import { repeatChecks } from './0005-repeat-checks.ts';
import { ownGoals } from './0006-goals.ts';
import { comparison } from './0007-comparison.ts';
import { leftOutPictures } from './0008-left-out.ts';
import { traces } from './0009-traces.ts';
import { bin } from './0010-bin.ts';
import { lessonPages } from './0011-lesson-page.ts';
import { namings } from './0012-namings.ts';
import { talkEdits } from './0013-talk-edits.ts';
import { children } from './0014-children.ts';
import { proposedPoints } from './0015-proposed-points.ts';
import { coming } from './0016-coming.ts';
import { proposedPlaces } from './0017-proposed-places.ts';
import { broughtClips } from './0018-brought-clips.ts';

/** Every step a book has ever taken, in order. Append only: a step that has been released is never edited. */
export const MIGRATIONS: readonly Migration[] = [
  first,
  keptSpan,
  settledTable,
  editsAndPins,
  repeatChecks,
  ownGoals,
  comparison,
  leftOutPictures,
  traces,
  bin,
  lessonPages,
  namings,
  talkEdits,
  children,
  proposedPoints,
  coming,
  proposedPlaces,
  broughtClips,
];
