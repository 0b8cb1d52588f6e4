import { access, readdir, readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import * as v from 'valibot';
import { readingTrouble } from '../files/file-trouble.ts';
import { repairWave } from '../files/wave-file.ts';
import { TALK_LIMITS, type TalkEvent, type TalkTake } from '../model/talk.ts';
import { talkEvent, talkTake } from '../parse/talk.ts';
import { TALK_SAMPLE_RATE, takeFiles, type TakeBegun } from './take-files.ts';

/** A take as it lies in its folder. */
export interface RecordedTake {
  /** null: nothing is left that could be seen. */
  readonly take: TalkTake | null;
  readonly begun: TakeBegun;
  /** Whether it was ended, and not broken off. */
  readonly ended: boolean;
}

const NOTHING: RecordedTake = { take: null, begun: { from: null, thenId: null }, ended: true };

const beginLine = v.strictObject({
  begun: v.strictObject({ from: v.nullable(v.number()), thenId: v.nullable(v.string()) }),
});
const endLine = v.strictObject({ ended: v.literal(true) });
const timeLine = v.strictObject({ time: v.pipe(v.number(), v.safeInteger(), v.minValue(0)) });

/**
 * The takes of a folder in their order, as `beginTake` recorded them, also such that were broken off: their sound is made
 * whole, and half a line at the end is left out. A take of which nothing is left to be seen is `null`, so that the others
 * keep their numbers. Sounds are named by their file's name alone.
 * @throws AppError `file-unreadable`.
 */
export async function readTakes(folder: string): Promise<readonly (TalkTake | null)[]> {
  return (await readRecordedTakes(folder)).map(({ take }) => take);
}

/** The same with what else is known of each. A number that no take has is one of which nothing is left. */
export async function readRecordedTakes(folder: string): Promise<readonly RecordedTake[]> {
  const names = await readdir(folder).catch((cause: unknown) => {
    throw readingTrouble(cause, folder);
  });
  const numbers = names.flatMap((name) => {
    const number = /^take-(\d+)\.jsonl$/.exec(name)?.[1];
    return number === undefined ? [] : [Number(number)];
  });
  const takes: RecordedTake[] = [];
  for (let take = 0; take <= Math.max(-1, ...numbers); take++)
    takes.push(numbers.includes(take) ? await readTake(folder, take) : NOTHING);
  return takes;
}

async function readTake(folder: string, take: number): Promise<RecordedTake> {
  const files = takeFiles(folder, take);
  const text = await readFile(files.log, 'utf8').catch((cause: unknown) => {
    throw readingTrouble(cause, files.log);
  });
  const { events, time, begun, ended } = linesOf(text);
  const heard = (await isThere(files.sound)) ? await repairWave(files.sound, TALK_SAMPLE_RATE) : 0;
  const heardMs = Math.floor((heard * 1000) / TALK_SAMPLE_RATE);
  // What is heard says how long it is; nobody hears what was shown after the last sample.
  const length = Math.min(heardMs > 0 ? heardMs : Math.max(time, events.at(-1)?.at ?? 0), TALK_LIMITS.takeLength);
  const made = {
    length,
    sound: heardMs > 0 ? { file: basename(files.sound), start: 0 } : null,
    // How a mark looked at the beginning may be told only once it has changed.
    events: events.filter(({ at }) => at <= length).sort((one, other) => one.at - other.at),
  };
  return { take: v.is(talkTake, made) ? made : null, begun, ended };
}

/** Whole lines that say what happened, up to the first that does not. */
function linesOf(text: string) {
  const events: TalkEvent[] = [];
  let [time, ended] = [0, false];
  let { begun } = NOTHING;
  for (const line of text.split('\n').slice(0, -1)) {
    const value = parsed(line);
    const [told, begins, event] = [
      v.safeParse(timeLine, value),
      v.safeParse(beginLine, value),
      v.safeParse(talkEvent, value),
    ];
    if (told.success) time = Math.max(time, told.output.time);
    else if (begins.success) ({ begun } = begins.output);
    else if (v.is(endLine, value)) ended = true;
    else if (event.success) events.push(event.output);
    else break;
  }
  return { events, time, begun, ended };
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return null;
  }
}

const isThere = (path: string): Promise<boolean> =>
  access(path).then(
    () => true,
    () => false,
  );
