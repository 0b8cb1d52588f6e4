import type { BinEntry, BinKind } from '../../core/model/bin.ts';
import type { BookSwing, Clip, Lesson, PartKept, Student, StudentOverview, Swing } from '../../core/model/book.ts';
import type { NoProposal, ProposedSwing, SwingOfClip } from '../../core/model/proposal.ts';
import type { EditWrite, KeptEdits } from '../../core/model/edit.ts';
import type { ErrorCode, ErrorDetail } from '../../core/model/errors.ts';
import type { CoachLibrary, EarlierPage } from '../../core/model/lesson-page.ts';
import type { FollowedThing } from '../../core/model/followed.ts';
import type { PathSubject, PicturePoint } from '../../core/model/mark.ts';
import type { FrameSpan } from '../../core/model/frame.ts';
import type { NewRepeatCheck, RepeatCheck } from '../../core/model/repeat-check.ts';
import type { Goals, ReadGoals } from '../../core/model/goals.ts';
import type { ReadSettings, Settings } from '../../core/model/settings.ts';
import type { SoundEnvelope } from '../../core/model/sound.ts';
import type { TalkEvent, TalkTake } from '../../core/model/talk.ts';
import type { Checkpoint, Handedness, View } from '../../core/model/words.ts';
import type { StillFormat, StillLayout } from '../../core/report/still-file.ts';
import type { AskedFrame, KeptCorrections, ProposedPoints } from '../../core/model/proposed-points.ts';
import type { FilmShape } from '../../core/talk/film-plan.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import type { ClipSummary } from '../../core/time/clip-summary.ts';
import type { CodedStart, FirstPicture } from '../../core/time/first-picture.ts';
import type { SwingPlace } from '../../core/time/pair-swings.ts';

/**
 * The one list of what the window may ask of the program: a name, what goes in, what comes out. Types only, so that the
 * window imports no code from here. Every request is parsed on arrival (parse-request.ts); every answer is an `Outcome`.
 */
export interface Requests {
  'program/facts': { in: null; out: ProgramFacts };

  /** Prints what the page shows for paper, by the system's dialog; false: the coach closed it. `paper`: of whole pages. */
  'program/print': { in: { paper: LessonFilesOrder['paper'] | null }; out: boolean };

  /** Settings of the program, outside of any book; `trouble` says what was wrong with their file. */
  'settings/read': { in: null; out: ReadSettings };
  'settings/write': { in: Settings; out: Written };

  /** The book's goals: the coach's own, else the one that ships with the program. */
  'goals/read': { in: null; out: ReadGoals };
  'goals/write': { in: Goals; out: Written };
  /** Back to the shipped goals. */
  'goals/reset': { in: null; out: ReadGoals };
  /** Asks where, then writes the goals file (JSON); null when the coach closed the dialog. */
  'goals/export': { in: null; out: { path: string } | null };
  /** Asks for a goals file and makes it the book's; null when the coach closed the dialog. */
  'goals/import': { in: null; out: { path: string; read: ReadGoals } | null };

  'student/list': { in: null; out: readonly StudentOverview[] };
  'student/add': { in: NewStudent; out: Student };
  'student/change': { in: { id: string } & NewStudent; out: Student };

  /** What was removed and can be put back, removed last first. */
  'bin/list': { in: null; out: readonly (BinEntry & { readonly daysLeft: number })[] };
  /** Removes a record and all below it, so that it can be put back for 30 days. */
  'bin/move': { in: { kind: BinKind; id: string }; out: BinEntry };
  /** Puts back what was removed, as it was. */
  'bin/put-back': { in: { id: string }; out: BinEntry };
  /** Removes an entry of the bin for good, null: all of them; with the media that no clip uses. */
  'bin/empty': { in: { id: string | null }; out: null };

  'lesson/add': { in: NewLesson; out: Lesson };
  'lesson/change': { in: { id: string } & Omit<NewLesson, 'studentId'>; out: Lesson };

  'swing/add': { in: { lessonId: string; label: string }; out: Swing };
  /** Everything on one swing: its clips, named frames and marks. */
  'swing/open': { in: { id: string }; out: BookSwing };
  /** The swings of its lesson that a clip of a view may come into. */
  'swing/places': { in: { id: string; view: View }; out: readonly SwingPlace[] };
  /** The swing that this one was last compared with; null: none. */
  'swing/then': { in: { id: string }; out: { thenId: string | null } };
  /** Remembers what the swing is compared with. */
  'swing/compare': { in: { id: string; thenId: string | null }; out: null };
  /** Asks where, then writes the swing file (JSON); null when the coach closed the dialog. */
  'swing/export': { in: { id: string }; out: { path: string } | null };

  /** Asks for a swing file and says what it holds; null when the coach closed the dialog. */
  'swing/choose-file': { in: null; out: ChosenSwingFile | null };
  /**
   * A job: brings the swing of a chosen file in as a new swing of a student (null: a new one), with the clips of these
   * views. Nothing that is in the book is changed.
   */
  'swing/import': {
    in: {
      jobId: string;
      path: string;
      studentId: string | null;
      files: readonly { readonly view: View; readonly path: string }[];
    };
    out: Swing;
  };

  /** Asks for a clip file; null when the coach closed the dialog. */
  'clip/choose': { in: null; out: { path: string } | null };
  /** What a chosen clip holds, before it is added: quick, no picture is decoded. */
  'clip/look': { in: { path: string }; out: ClipSummary };
  /** What the window's own decoder needs for a first picture of it, while it is looked at; null where that is not plain. */
  'clip/coded-start': { in: { path: string }; out: CodedStart | null };
  /** That picture made by ffmpeg; null where that is not so quick. */
  'clip/first-picture': { in: { path: string }; out: FirstPicture | null };
  /** A job: looks through a chosen clip for its swings. Nothing is kept. */
  'clip/find-swings': { in: { jobId: string; path: string }; out: readonly SwingOfClip[] };
  /**
   * A job: reads the index, then copies or links the file. Report and cancel by `jobId`. With a `span` the clip is in the
   * swing at once, and only that part is kept, from a key picture at or before it on, as a copy (`clip/keep`); the chosen
   * file is only read. `asNewSwing`: it comes into a new swing of that swing's lesson.
   */
  'clip/import': {
    in: {
      jobId: string;
      swingId: string;
      asNewSwing?: boolean;
      view: View;
      path: string;
      stored: 'copied' | 'linked';
      span: FrameSpan | null;
    };
    out: Clip;
  };
  /** A job: takes the part of a clip that is coming out of its file, or waits until that is done. `first`: as its `kept`. */
  'clip/keep': { in: { jobId: string; id: string; first: number }; out: PartKept };
  /** A job: looks through a clip of the book for address, top and impact. Nothing is kept. */
  'clip/propose': { in: { jobId: string; id: string }; out: ProposedSwing | NoProposal };
  /** A job: looks for the body points on frames of a clip of a swing; null where nobody is seen. Nothing is kept. */
  'clip/propose-points': {
    in: { jobId: string; swingId: string; id: string; frames: readonly AskedFrame[] };
    out: readonly (ProposedPoints | null)[];
  };
  /** A job: follows a thing over the frames of a clip from where it is on one. Nothing is kept. */
  'clip/follow': {
    in: { jobId: string; id: string; subject: PathSubject; frame: number; at: PicturePoint; until: number };
    out: FollowedThing;
  };
  /** A job: tells the book where the file of a clip is now. Only a file with the very same bytes is taken. */
  'clip/relink': { in: { jobId: string; id: string; path: string }; out: Clip };
  'clip/index': { in: { id: string }; out: ClipIndex };
  /** Opens the clip at the frame server, or looks whether its file is still as it was. Errors as for any use of its file. */
  'clip/show': { in: { id: string }; out: null };
  /** The same for a few small pictures, as in a list: no copy is made for quick stepping. */
  'clip/glance': { in: { id: string }; out: null };
  /** How loud the clip is over its pictures; null when it has no sound. */
  'clip/sound': { in: { id: string }; out: SoundEnvelope | null };
  /**
   * Makes a change of a swing and keeps it with the lesson, takes one back or makes it again. Answered once it is written, in
   * order. What cannot be written stays with the program, as all that is put in a row does, and is tried again.
   */
  'edit/write': { in: EditWrite; out: Written };
  'edit/list': { in: { lessonId: string }; out: KeptEdits };

  /** Keeps a finished repeat check; its numbers are in use from then on. */
  'repeat/add': { in: NewRepeatCheck; out: RepeatCheck };
  /** All that are kept, the newest first. */
  'repeat/list': { in: null; out: readonly RepeatCheck[] };
  'repeat/remove': { in: { id: string }; out: null };

  /** Where proposed points were put elsewhere, of all lessons. */
  'corrections/list': { in: null; out: KeptCorrections };
  /** What was corrected until now no longer counts. */
  'corrections/forget': { in: null; out: null };

  /** Tries again to write what waits in one row. */
  'writes/retry': { in: { row: RowName }; out: null };
  /** How much waits, for a page that was opened anew; and what became of changes that were kept elsewhere. */
  'writes/read': { in: null; out: WritesFacts };
  /** Takes in changes that were kept elsewhere: of a file the coach is asked for, or of the one that was noted. */
  'kept/take-in': { in: { choose: boolean }; out: KeptFacts | null };
  /** The page has nothing left to hand over, and takes nothing more. What the coach is in the middle of is named. */
  'window/wound-up': { in: { unfinished: readonly string[] }; out: null };

  /** A job: writes stills of one swing, or then and now, into a folder; asks for the folder when `folder` is null. */
  'stills/save': { in: StillsOrder; out: { folder: string; files: readonly string[] } | null };
  /** A job: puts one still for a phone on the clipboard, as a picture. */
  'stills/copy': { in: StillPlace & { jobId: string }; out: null };
  /** Puts what that still says on the clipboard, as plain text. */
  'stills/copy-text': { in: StillPlace; out: null };
  /** What the lesson before asked for, with the swing that it was asked of; null: there was none. */
  'page/earlier': { in: { swingId: string }; out: { earlier: EarlierPage; swing: BookSwing | null } | null };
  /** The coach's drills and letter, which belong to the book. */
  'library/read': { in: null; out: CoachLibrary };
  'library/write': { in: CoachLibrary; out: null };
  /** A job: makes of the lesson what is sent, where the coach says; null when the coach closed the dialog. Nothing is sent. */
  'lesson/save': { in: LessonFilesOrder; out: { path: string; folder: string; notes: readonly string[] } | null };
  /** A job: the page of the lesson as PDF, to be printed. Nothing is written. */
  'lesson/pdf': { in: Omit<LessonFilesOrder, 'as'>; out: Uint8Array };
  /** Opens a file that was saved so in the program that the system has for it. */
  'lesson/open': { in: { path: string }; out: null };

  /** What was recorded of the talk-through of a swing, as it was recorded; null: nothing. */
  'talk/read': { in: { swingId: string }; out: RecordedTalk | null };
  /** Lets the page listen to a microphone, or not any more. Only while a talk-through is recorded or about to be. */
  'talk/microphone': { in: { open: boolean }; out: null };
  /** Begins a take. `from`: the millisecond of the talk-through from which on it is said anew; null: it is the first. */
  'talk/begin': {
    in: { swingId: string; thenId: string | null; from: number | null; sound: boolean };
    out: { take: number };
  };
  /** What was heard (48,000 samples a second) and shown since the last time; `time`: the take's length without sound, ms. */
  'talk/append': {
    in: { sound: Int16Array | null; events: readonly TalkEvent[]; time: number | null };
    out: null;
  };
  /** Ends the take; not `whole`: as one that was broken off. */
  'talk/end': { in: { whole: boolean }; out: null };
  /** Deletes a take that was broken off before it came in. */
  'talk/drop-take': { in: { swingId: string; take: number }; out: null };
  /** Deletes the talk-through for good. */
  'talk/remove': { in: { swingId: string }; out: null };
  /** Samples of a take, from one millisecond to another, at most LONGEST_SOUND. */
  'talk/sound': { in: { swingId: string; take: number; from: number; to: number }; out: Int16Array };
  /** A job: makes the video, where the coach says; null when the coach closed the dialog. */
  'talk/save': {
    in: { jobId: string; swingId: string; shape: FilmShape; burnCaptions: boolean };
    out: SavedTalk | null;
  };

  /** A job: writes one still for a phone where it lies until it was dragged out of the window. */
  'stills/drag': { in: StillPlace & { jobId: string }; out: { path: string } };
  /** Lets the hand that holds the mouse button carry a file of the program's own, or a saved one, out of the window. */
  'drag/start': { in: { path: string }; out: null };

  /** Opens a folder that stills were saved to in the system's file manager. */
  'stills/show-folder': { in: { folder: string }; out: null };

  /** Asks for a port to the frame server; it arrives as a message of the page to itself (`baybook:frames-port`). */
  'frames/connect': { in: null; out: null };
  /** No clip is looked at any more: what stands ready for pictures is given back, once copies under way are made. */
  'frames/rest': { in: null; out: null };

  /** A job: makes the invented demo student, lessons and clips in this book. */
  'demo/make': { in: { jobId: string }; out: null };

  /** Stops a running job; its request then answers with the code `cancelled`. */
  'job/cancel': { in: { jobId: string }; out: null };
}

export interface ChosenSwingFile {
  readonly path: string;
  readonly firstName: string;
  readonly date: string;
  readonly club: string;
  readonly handedness: Handedness;
  /** `path`: where the clip is that the file names; null where there is none. */
  readonly clips: readonly { readonly view: View; readonly name: string; readonly path: string | null }[];
}

/** A talk-through as it lies in the book. */
export interface RecordedTalk {
  /** In the order they were recorded; null where nothing is left of one. */
  readonly takes: readonly (TalkTake | null)[];
  /** The earlier swing that it shows. */
  readonly thenId: string | null;
  /** A take that was said anew from a millisecond on, and broken off before it came in. */
  readonly brokenOff: { readonly take: number; readonly from: number } | null;
  /** The video that was saved of it last, where it still lies there. */
  readonly saved: SavedTalk | null;
}

export interface SavedTalk {
  readonly path: string;
  readonly folder: string;
  readonly bytes: number;
}

export type RequestName = keyof Requests;

export interface ProgramFacts {
  readonly version: string;
  readonly bookFolder: string;
  /** What of the book's clips and files does not fit together, as sentences. */
  readonly strays: readonly string[];
  readonly electron: string;
  /** How this computer writes days (core/model/day-in-words.ts). */
  readonly place: string;
  readonly ffmpeg: { readonly path: string; readonly version: string; readonly warning: string | null } | null;
  /** Book has no student yet. */
  readonly empty: boolean;
}

export interface NewStudent {
  firstName: string;
  lastName: string;
  handedness: Handedness;
  /** Left out: no. */
  child?: true;
}

export interface NewLesson {
  studentId: string;
  date: string;
  club: string;
  handedness: Handedness;
  note: string;
}

/** One still: of a swing, or of then and now. */
export interface StillPlace {
  swingId: string;
  thenSwingId: string | null;
  view: View;
  checkpoint: Checkpoint;
}

export interface StillsOrder {
  jobId: string;
  /** The swing of now. */
  swingId: string;
  /** The earlier swing, for then / now; null for one swing. */
  thenSwingId: string | null;
  /** In the order they stand in; each must be named in the clips that are shown. */
  checkpoints: readonly Checkpoint[];
  views: readonly View[];
  layout: StillLayout;
  format: StillFormat;
  /** Pixels, within STILL_WIDTH; a still for a phone has its own. */
  width: number;
  /** Folder to write to, or null to ask. */
  folder: string | null;
}

/** As what a lesson goes out. all: everything, into a folder. csv, json: its numbers alone. */
export type LessonFile = 'mail' | 'pdf' | 'all' | 'csv' | 'json';

export interface LessonFilesOrder {
  jobId: string;
  swingId: string;
  thenSwingId: string | null;
  as: LessonFile;
  paper: 'A4' | 'Letter';
}

/** A row of writes that the window puts without asking, and that are carried out in order. */
export type RowName = 'edits' | 'goals' | 'settings';

export interface WritesFacts {
  readonly waiting: Readonly<Record<RowName, number>>;
  readonly kept: KeptFacts | null;
}

/** A write was made. */
export interface Written {
  /** Why an earlier one, which had waited till now, was refused for good; null: none was. */
  readonly earlierRefused: ErrorFacts | null;
}

/** What became of changes that were kept in a file beside the book. */
export interface KeptFacts {
  readonly takenIn: boolean;
  readonly sentence: string;
}

/** An AppError as data. */
export interface ErrorFacts {
  readonly code: ErrorCode;
  readonly message: string;
  readonly detail: ErrorDetail;
}

/** What travels back: a value, or an error. */
export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: ErrorFacts };

/** How far a job has come. `total` is null while unknown; `done` never falls. */
export interface JobReport {
  readonly jobId: string;
  readonly label: string;
  readonly done: number;
  readonly total: number | null;
}

/** A clip's frame table was held against a decode of the whole clip. */
export interface ClipSettled {
  readonly clipId: string;
  /** Whether any frame has another number now; what is named and marked stayed on its picture. */
  readonly changed: boolean;
  /** Frames whose picture cannot be trusted. */
  readonly damaged: number;
}

/** What preload.ts puts on `window.baybook`. */
export interface BaybookBridge {
  request<Name extends RequestName>(name: Name, input: Requests[Name]['in']): Promise<Outcome<Requests[Name]['out']>>;
  /** Calls back for every report of every job; returns how to stop. */
  onJobReport(listener: (report: JobReport) => void): () => void;
  /** Calls back for every clip whose frame table was settled; returns how to stop. */
  onClipSettled(listener: (settled: ClipSettled) => void): () => void;
  /** Calls back when the window is to close (true), and when it stays open after all (false); returns how to stop. */
  onWindUp(listener: (closing: boolean) => void): () => void;
  /** Calls back when no pictures come any more until somebody asks for a port again; returns how to stop. */
  onFramesStopped(listener: () => void): () => void;
  /** The path on disk of a file the coach dropped on the window, or null when it has none. */
  pathOfDroppedFile(file: File): string | null;
  /** Frees what the page does not use any more. Slow: for when all clips were closed. */
  giveMemoryBack(): void;
}
