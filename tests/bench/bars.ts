import { atLeast, atMost } from './figures.ts';
import type { Bar, FigurePlan } from './figures.ts';

/** Every bar of the bench stands here and nowhere else. Names of figures are written out here, and used from here. */

/** Short names of the clips that every row is about. */
export const CLIPS = ['1080p240', '1080p60', '1080p120-hevc', 'variable-rate', 'edit-turned', '4k60'] as const;
export type ClipName = (typeof CLIPS)[number];
/** Two 10 s clips of 1080p240 in one swing, both looked at. */
export const PAIR = '1080p240-pair';
/** The same film in lengths of 2, 5, 10 and 20 s. */
export const LENGTHS = '1080p240-lengths';
/** Three minutes of 1080p240. */
export const LONG = '1080p240-180s';
/** The one with the largest pictures. */
export const LARGE = '4k60';

interface FigureKind {
  readonly name: string;
  readonly unit: string;
  readonly bar: Bar | null;
}

interface Row {
  /** What the row asks for, in the words of the requirement. */
  readonly asks: string;
  /** Taken on every clip. */
  readonly each?: Readonly<Record<string, FigureKind>>;
  readonly pair?: Readonly<Record<string, FigureKind>>;
  readonly lengths?: Readonly<Record<string, FigureKind>>;
  /** Taken on three minutes of 1080p240. */
  readonly long?: Readonly<Record<string, FigureKind>>;
  /** Taken on the film of 1080p240 only. */
  readonly talk?: Readonly<Record<string, FigureKind>>;
  /** Taken on the clip with the largest pictures only. */
  readonly large?: Readonly<Record<string, FigureKind>>;
}

const kind = (name: string, unit: string, bar: Bar | null): FigureKind => ({ name, unit, bar });
const told = (name: string, unit: string): FigureKind => ({ name, unit, bar: null });

/** A window stays as large as it was when it grows by no more than this. */
export const SAME_AGAIN = atMost(1.1);
/** Linear cost: a frame of a long clip costs at most this much of a frame of a short one. */
const LINEAR = atMost(1.5);
/** What decoding from the key frame may cost: 1.3 x the plain decoder, and 150 ms. */
export const DECODE_FACTOR = 1.3;
export const DECODE_EXTRA_MS = 150;

export const ROWS = {
  index: {
    asks: 'index / raw decode of the clip (same run)',
    each: {
      ratio: kind('index / raw decode', 'ratio', atMost(0.15)),
      index: told('index', 'ms'),
      decode: told('raw decode', 'ms'),
    },
  },
  first: {
    asks: 'first picture after choosing the file',
    each: {
      picture: kind('first picture after choosing the file', 'ms', atMost(600)),
      // The clip was seen by then. Adding it copies the file, takes its checksum and writes its row first.
      bench: told('first picture on the bench after adding the clip', 'ms'),
    },
  },
  copy: {
    asks: 'copy / raw decode',
    each: {
      ratio: kind('proxy / raw decode', 'ratio', atMost(2.2)),
      size: kind('proxy on disk', 'KB a frame', atMost(150)),
      // As on a small laptop; the figure above is for a screen of 1920 pixels and more.
      small: kind('proxy for a small screen / raw decode', 'ratio', atMost(1.5)),
      // Other programs on the machine change the time that it takes, not the work.
      work: told('proxy / raw decode, processor time', 'ratio'),
      smallWork: kind('proxy for a small screen / raw decode, processor time', 'ratio', atMost(1.5)),
      all: kind('proxy for a small screen, settling, strip and sound / raw decode', 'ratio', atMost(1.6)),
    },
  },
  step: {
    asks: 'single step (hand, up to 10 a second), picture on canvas, p95',
    each: {
      ahead: kind('single step, fetched ahead, p95', 'ms', atMost(16.7)),
      late: kind('single step, not fetched ahead, p95', 'ms', atMost(130)),
      aheadShare: told('single steps of one frame that were fetched ahead', '%'),
      aheadHanded: told('single step, fetched ahead, handed to the canvas, p95', 'ms'),
    },
  },
  held: {
    asks: 'held key or run',
    each: {
      rate: kind('held key, forward', 'pictures a second', atLeast(24)),
      backRate: kind('held key, backward', 'pictures a second', atLeast(24)),
      skipped: kind('held key, frames skipped', 'frames', atMost(0)),
      disordered: kind('held key, pictures out of order', 'pictures', atMost(0)),
    },
  },
  jump: {
    asks: 'random jump, copy ready: data in the window / on canvas, p95',
    each: {
      data: kind('random jump, copy ready, data in the window, p95', 'ms', atMost(60)),
      canvas: kind('random jump, copy ready, on canvas, p95', 'ms', atMost(130)),
      canvasMiddle: told('random jump, copy ready, on canvas, p50', 'ms'),
      seek: told('plain ffmpeg seek, p95', 'ms'),
      seekMiddle: told('plain ffmpeg seek, p50', 'ms'),
      quicker: kind('plain ffmpeg seek / random jump on canvas, p95', 'ratio', atLeast(8)),
    },
  },
  unready: {
    asks: 'random jump, copy not ready, p95',
    each: {
      share: kind(
        'random jump, copy not ready, p95 of time / (1.3 x raw decode from key + 150 ms)',
        'ratio',
        atMost(1),
      ),
      canvas: told('random jump, copy not ready, p95', 'ms'),
    },
  },
  sharp: {
    asks: 'sharp source picture after the pointer rests, p95',
    each: {
      share: kind('sharp after rest, p95 of time / (1.3 x raw decode from key + 150 ms)', 'ratio', atMost(1)),
      canvas: told('sharp after rest, p95', 'ms'),
      back: kind('sharp again on return within the window, p95', 'ms', atMost(30)),
    },
  },
  cell: {
    asks: 'a cell of the sheet, copy ready, from coming into sight to its picture, p95',
    each: { first: kind('cell of the sheet, copy ready, until its picture, p95', 'ms', atMost(150)) },
  },
  wrong: {
    asks: 'wrong frames over 2,000 requests per clip, first, last and +-4 around every key frame included',
    each: {
      wrong: kind('wrong frames', 'frames', atMost(0)),
      requests: kind('requests checked', 'requests', atLeast(2000)),
      paints: told('paints whose code was read', 'paints'),
      sharp: told('sharp pictures among them', 'paints'),
    },
  },
  memory: {
    asks: 'memory, handles, processes after closing',
    each: {
      memory: kind('memory after closing / before opening', 'ratio', SAME_AGAIN),
      handles: kind('open handles after closing / before opening', 'ratio', SAME_AGAIN),
      processes: kind('processes after closing / before opening', 'ratio', SAME_AGAIN),
    },
    pair: {
      most: kind('memory of all processes, most', 'MB', atMost(1400)),
      before: told('memory of all processes, before opening', 'MB'),
      memory: kind('memory after closing / before opening', 'ratio', SAME_AGAIN),
      handles: kind('open handles after closing / before opening', 'ratio', SAME_AGAIN),
      processes: kind('processes after closing / before opening', 'ratio', SAME_AGAIN),
      again: told('memory after closing a second time / after the first', 'ratio'),
    },
  },
  drag: {
    asks: 'drag of a point among 20 points and 12 shapes on a 4K frame',
    large: {
      // The screen itself gives 60 a second; one that is missed now and then is not seen.
      rate: kind('drag, pictures a second', 'pictures a second', atLeast(58)),
      renders: kind('drag, paints of the marks a move', 'paints', atMost(1)),
      slowest: told('drag, longest wait between two pictures', 'ms'),
    },
  },
  length: {
    asks: 'cost against clip length (2, 5, 10, 20 s)',
    lengths: {
      index: kind('index a frame, 20 s / 2 s', 'ratio', LINEAR),
      copy: kind('proxy a frame, 20 s / 2 s', 'ratio', LINEAR),
      jump: kind('random jump on canvas, p50, longest / shortest of 2, 5, 10, 20 s', 'ratio', LINEAR),
    },
  },
  long: {
    asks: 'the first seconds of a clip of three minutes',
    long: {
      index: kind('index of three minutes / raw decode', 'ratio', atMost(0.002)),
      indexTime: told('index of three minutes', 'ms'),
      decode: told('raw decode of three minutes', 'ms'),
      picture: kind('first picture after choosing three minutes', 'ms', atMost(400)),
      pictures: kind('first picture of three minutes / of ten seconds', 'ratio', atMost(1.5)),
      strip: kind('strip whole, from the picture on the bench', 'ms', atMost(3000)),
      stripShare: kind('strip whole / raw decode', 'ratio', atMost(0.1)),
      read: kind('bytes read to bring it into the book / its size', 'ratio', atMost(1.1)),
      keep: kind('keeping a swing of four seconds / raw decode of the swing', 'ratio', atMost(3)),
      keepTime: told('keeping a swing of four seconds', 'ms'),
    },
  },
  keep: {
    asks: 'a swing of four seconds is kept of three minutes, until the bench shows it',
    long: {
      // It is taken out of the clip meanwhile.
      shown: kind('bench shows a swing that is kept, from the press', 'ms', atMost(2000)),
      done: told('that swing is in a file of its own', 'ms'),
      wrong: kind('wrong frames until then and after', 'frames', atMost(0)),
    },
  },
  two: {
    asks: 'two cameras: what is measured for one clip, for two of one swing',
    pair: {
      // As for one clip, though the copy of the first is being made meanwhile.
      picture: kind('first picture of the second clip after choosing it', 'ms', atMost(600)),
      pictures: kind('first picture of the second clip / of the first', 'ratio', atMost(1.5)),
      strip: kind('strip of the second clip whole, from its picture on the bench', 'ms', atMost(3000)),
      stripShare: told('strip of the second clip whole / raw decode of both', 'ratio'),
      // Both are made in turn while the bench is looked at, so this is no bar of one pass.
      copies: kind('both proxies whole, from then / raw decode of both', 'ratio', atMost(2.2)),
      keep: kind('keeping a swing of both / raw decode of both swings', 'ratio', atMost(3)),
    },
  },
  talk: {
    asks: 'the video of a talk-through of two minutes',
    talk: {
      ratio: kind('video of a talk-through, time / its length', 'ratio', atMost(1)),
      memory: kind('video of a talk-through, memory of all that makes it, most', 'MB', atMost(700)),
    },
  },
} as const satisfies Readonly<Record<string, Row>>;

export type RowName = keyof typeof ROWS;
export const ROW_NAMES = Object.keys(ROWS).filter((name): name is RowName => name in ROWS);

/** All figures that a run over these clips and rows promises. The pair and the lengths are films of 1080p240. */
export function planFigures(clips: readonly ClipName[], rows: readonly RowName[]): readonly FigurePlan[] {
  const plans: FigurePlan[] = [];
  for (const name of rows) {
    const row: Row = ROWS[name];
    for (const clip of clips) for (const each of Object.values(row.each ?? {})) plans.push({ ...each, clip });
    if (clips.includes(LARGE)) for (const each of Object.values(row.large ?? {})) plans.push({ ...each, clip: LARGE });
    if (!clips.includes('1080p240')) continue;
    for (const each of Object.values(row.long ?? {})) plans.push({ ...each, clip: LONG });
    for (const each of Object.values(row.talk ?? {})) plans.push({ ...each, clip: '1080p240' });
    for (const each of Object.values(row.pair ?? {})) plans.push({ ...each, clip: PAIR });
    for (const each of Object.values(row.lengths ?? {})) plans.push({ ...each, clip: LENGTHS });
  }
  return plans;
}
