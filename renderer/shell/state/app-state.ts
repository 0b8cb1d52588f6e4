import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { BookSwing, StudentOverview } from '../../../core/model/book.ts';
import type { Edit } from '../../../core/model/edit.ts';
import type { FrameMarks, PathSubject } from '../../../core/model/mark.ts';
import type { ReadingKey } from '../../../core/model/reading.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import type { JobReport, ProgramFacts } from '../../../electron/ipc/contract.ts';
import { idle } from '../../tools/tool.ts';
import type { Target } from '../../tools/target.ts';
import type { ToolName, ToolState } from '../../tools/tool.ts';
import type { SaveState } from './autosave.ts';
import { emptyHistory } from '../../swing/state/history.ts';
import type { History } from '../../swing/state/history.ts';
import type { Route } from './route.ts';
import { createStore } from './store.ts';

/** `aside`: it goes on beside whatever the coach does; left out = no. */
export type ShownJob = JobReport & { readonly aside?: boolean };

export interface NextStep {
  readonly label: string;
  readonly run: () => void;
  /** It is offered here alone, such as a way back: it waits for an answer as long as its screen is there. */
  readonly waits?: true;
}

/** A sentence for the coach, with the next step where there is one. */
export interface Message {
  readonly kind: 'trouble' | 'done';
  readonly text: string;
  readonly nextStep: NextStep | null;
  /** What the trouble is with: it goes once that is well again, and another trouble with it takes its place. */
  readonly about?: string;
}

/**
 * What is on screen of the frame on the bench: nothing yet, so that another frame's picture or none is seen; its quick
 * picture; its exact one; or it is known to have none.
 */
export type BenchPicture = 'coming' | 'quick' | 'exact' | 'none';

/** One frame brought to full size. */
export interface BenchState {
  readonly clipId: string;
  readonly index: number;
  readonly picture: BenchPicture;
  /** Whether the gesture that runs had a press before any picture of this frame was on screen. */
  readonly blind: boolean;
  readonly tool: ToolState;
  /** The tool that is in hand again once a handle is let go; null: the one above is. */
  readonly resumes: ToolName | null;
  /** What the path tool follows. */
  readonly follows: PathSubject;
  /** Marks of a frame while a gesture runs (of a path: of the frame it is kept with); null shows the kept ones. */
  readonly draft: FrameMarks | null;
  readonly selected: Target | null;
  /** The body point the coach asked to place, or null to go on with the next that is missing. */
  readonly asked: BodyPointId | null;
  /** The checkpoint the coach came here to find, whose name is offered first. */
  readonly looksFor: Checkpoint | null;
  /** The reading whose points are picked out. */
  readonly shownReading: ReadingKey | null;
}

/** Then and now of one view beside each other, or one over the other. */
export interface ComparingState {
  /** Of the open swing. */
  readonly clipId: string;
  /** The frame of it that is shown; then's goes with it. */
  readonly index: number;
}

export interface AppState {
  readonly route: Route;
  readonly facts: ProgramFacts | null;
  /** null until the book has answered. */
  readonly students: readonly StudentOverview[] | null;
  /** The student whose lessons are listed. */
  readonly studentId: string | null;
  /** The swing whose lesson sheet is in the making. */
  readonly swing: BookSwing | null;
  /** The earlier swing it is compared with. */
  readonly then: BookSwing | null;
  readonly indexes: Readonly<Record<string, ClipIndex>>;
  readonly bench: BenchState | null;
  readonly comparing: ComparingState | null;
  /** The edits of the open swing's lesson. */
  readonly history: History<Edit>;
  readonly saving: SaveState;
  /** Trouble in the order it came, each until it is answered or solved; after it the latest of what was done. */
  readonly messages: readonly Message[];
  readonly jobs: readonly ShownJob[];
}

export const app = createStore<AppState>({
  route: { at: 'book' },
  facts: null,
  students: null,
  studentId: null,
  swing: null,
  then: null,
  indexes: {},
  bench: null,
  comparing: null,
  history: emptyHistory(),
  saving: 'saved',
  messages: [],
  jobs: [],
});

/** Changes some fields of the state. */
export function setApp(fields: Partial<AppState>): void {
  app.update((state) => ({ ...state, ...fields }));
}

/** Changes some fields of the bench; nothing happens when no frame is open. */
export function setBench(fields: Partial<BenchState>): void {
  app.update((state) => (state.bench === null ? state : { ...state, bench: { ...state.bench, ...fields } }));
}

export function newBench(clipId: string, index: number): BenchState {
  return {
    clipId,
    index,
    picture: 'coming',
    blind: false,
    tool: idle('move'),
    resumes: null,
    follows: 'clubhead',
    draft: null,
    selected: null,
    asked: null,
    looksFor: null,
    shownReading: null,
  };
}
