import type { BinOperations } from './bin.ts';
import type { CheckpointOperations } from './checkpoints.ts';
import type { ClipOperations } from './clips.ts';
import type { ComparisonOperations } from './comparisons.ts';
import type { CorrectionOperations } from './corrections.ts';
import type { BookDatabase } from './database.ts';
import type { EditOperations } from './edits.ts';
import type { LessonPageOperations } from './lesson-pages.ts';
import type { LessonOperations } from './lessons.ts';
import type { MarkOperations } from './marks.ts';
import type { MediaFolder } from './media-folder.ts';
import type { GoalsOperations } from './goals.ts';
import type { PartOperations } from './take-part.ts';
import type { PinOperations } from './pins.ts';
import type { RepeatCheckOperations } from './repeat-checks.ts';
import type { SettleOperations } from './settle-clip.ts';
import type { StudentOperations } from './students.ts';
import type { SwingOperations } from './swings.ts';
import type { TalkOperations } from './talks.ts';
import type { TraceOperations } from './traces.ts';

/** An open book. Every operation is done when it returns; files are handled by media.ts. */
export interface Book
  extends
    StudentOperations,
    LessonOperations,
    LessonPageOperations,
    SwingOperations,
    ClipOperations,
    CheckpointOperations,
    MarkOperations,
    PinOperations,
    ComparisonOperations,
    GoalsOperations,
    EditOperations,
    RepeatCheckOperations,
    CorrectionOperations,
    SettleOperations,
    PartOperations,
    BinOperations,
    TalkOperations,
    TraceOperations {
  /** Absolute. */
  readonly folder: string;
  /** For core/book only. */
  readonly database: BookDatabase;
  /** For core/book only. */
  readonly media: MediaFolder;
  /** Ends the use of the book; a second call does nothing. Operations on a closed book throw. */
  close(): void;
}
