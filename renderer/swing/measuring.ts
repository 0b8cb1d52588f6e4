import { LANGUAGE_TOLD } from '../../core/model/language.ts';
import type { Measured, ReportSource } from '../../core/report/lesson-report.ts';
import type { MarkedSwing } from '../../core/model/swing.ts';
import type { Answer, Numbered, NumberedSwing, ToMeasure } from './report-worker.ts';

/** What is read from and compared; the placing errors are known by then. */
export type Source = ReportSource & Required<Pick<ReportSource, 'placing'>>;

interface Order {
  readonly source: Source;
  readonly resolve: (measured: Measured) => void;
  readonly reject: (cause: unknown) => void;
}

/**
 * The page's end of report-worker.ts. One order is under way at a time; of those that come meanwhile only the last of each
 * asker is measured, since it is for what the asker shows now. The others never settle, and nobody waits for them.
 */
let underWay: Order | null = null;
/** By who asked, the longest waiting first. */
const waiting = new Map<object, Order>();
let worker: Worker | null = null;

/** `asker`: any object that stands for one place that shows readings. */
export function measureElsewhere(source: Source, asker: object): Promise<Measured> {
  return new Promise((resolve, reject) => {
    waiting.set(asker, { source, resolve, reject });
    if (underWay === null) begin();
  });
}

/** Starts the thread, so that the first swing need not wait for it. */
export function prepareMeasuring(): void {
  worker ??= start();
}

/** Nothing is looked at any more: a fresh thread takes the place of the one that has worked, and its memory goes with it. */
export function freshMeasuring(): void {
  // What nobody waits for any more never settles.
  underWay = null;
  waiting.clear();
  worker?.terminate();
  worker = start();
}

function begin(): void {
  const [first] = waiting;
  underWay = null;
  if (first === undefined) return;
  const [asker, order] = first;
  waiting.delete(asker);
  underWay = order;
  worker ??= start();
  worker.postMessage(numberedSource(order.source));
}

function start(): Worker {
  const started = new Worker(new URL('./report-worker.ts', import.meta.url), { type: 'module', name: LANGUAGE_TOLD });
  const settle = (answer: Answer): void => {
    if ('measured' in answer) underWay?.resolve(answer.measured);
    else underWay?.reject(new Error(answer.error));
    begin();
  };
  started.addEventListener('message', ({ data }: MessageEvent<Answer>) => {
    // An answer of a thread that was ended is to another order than the present one.
    if (worker === started) settle(data);
  });
  started.addEventListener('error', ({ message }) => {
    if (worker !== started) return;
    worker = null;
    settle({ error: message });
  });
  return started;
}

const numbers = new WeakMap<object, number>();
let last = 0;

function numbered<Value extends object>(value: Value): Numbered<Value> {
  const number = numbers.get(value) ?? (last += 1);
  numbers.set(value, number);
  return { number, value };
}

function numberedSource({ now, then, goals, placing }: Source): ToMeasure {
  const swing = ({ besides = [], ...each }: MarkedSwing): NumberedSwing => ({
    ...each,
    clips: each.clips.map(numbered),
    besides: besides.map(({ label, clips }) => ({ label, clips: clips.map(numbered) })),
  });
  return {
    ...{ now: swing(now), then: then === null ? null : swing(then) },
    ...{ goals: numbered(goals), placing: numbered(placing) },
  };
}
