import { say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';
import type { TalkEvent } from '../../core/model/talk.ts';
import type { TakeBegun } from '../../core/talk-file/take-files.ts';
import { beginTake, type TakeRecorder } from '../../core/talk-file/take-recorder.ts';

/** Owner of the take that is being recorded, at most one: whatever becomes of the window, its files are closed. */
export class Recordings {
  #running: TakeRecorder | null = null;

  /** @throws AppError `bad-request` while another one runs, `disk-full`, `not-writable`. */
  async begin(folder: string, withSound: boolean, begun: TakeBegun): Promise<number> {
    this.refuseWhileRunning();
    const recorder = await beginTake(folder, withSound, begun);
    this.#running = recorder;
    return recorder.take;
  }

  /** Keeps what was heard and shown since the last time. @throws AppError `bad-request`, `disk-full`, `not-writable`. */
  async append(part: {
    readonly sound: Int16Array | null;
    readonly events: readonly TalkEvent[];
    readonly time: number | null;
  }): Promise<void> {
    const recorder = this.#required();
    const { sound, events, time } = part;
    const kept: Promise<void>[] = [];
    if (events.length > 0) kept.push(recorder.events(events));
    if (sound !== null) kept.push(recorder.sound(sound));
    if (time !== null) kept.push(recorder.time(time));
    await Promise.all(kept);
  }

  /** Ends the take. @throws AppError `bad-request` where none runs, `disk-full`, `not-writable`. */
  async end(): Promise<void> {
    const recorder = this.#required();
    this.#running = null;
    await recorder.end();
  }

  /** The window is gone, or the program ends: what was recorded is there and counts as broken off. */
  async breakOff(): Promise<void> {
    const running = this.#running;
    this.#running = null;
    await running?.breakOff();
  }

  /** @throws AppError `bad-request`. */
  refuseWhileRunning(): void {
    if (this.#running !== null)
      throw new AppError('bad-request', say`A talk-through is being recorded. Stop the recording first.`);
  }

  #required() {
    if (this.#running === null) throw new AppError('bad-request', say`No talk-through is being recorded.`);
    return this.#running;
  }
}
