import { say } from '../../../core/model/say.ts';
import { BIN_DAYS, type BinEntry, type BinKind } from '../../../core/model/bin.ts';
import { isolated } from '../../../core/model/isolated.ts';
import type { Requests } from '../../../electron/ipc/contract.ts';
import { ask } from '../../api.ts';
import { forgetLearntPoints } from '../../bench/state/proposed-points.ts';
import { readBook } from '../../book/state/book-actions.ts';
import { readSwingAgain } from '../../swing/state/swing-actions.ts';
import { settleWrites } from '../../swing/state/edit-actions.ts';
import { app, setApp } from './app-state.ts';
import { attempt, tellDone } from './messages.ts';

/** What is on its way into the bin. */
let moving: Promise<unknown> = Promise.resolve();

/** What lies in the bin, with what was on its way when this was asked. */
export async function listBin(): Promise<Requests['bin/list']['out']> {
  await moving;
  return ask('bin/list', null);
}

/** Removes a record and all below it, and offers it back. What was changed on it is written first, and comes back with it. */
export async function moveToBin(kind: BinKind, id: string): Promise<void> {
  const moved = settleWrites().then(() => ask('bin/move', { kind, id }));
  moving = moved.catch(() => undefined);
  const entry = await moved;
  await lookAgain();
  tellDone(say`${isolated(entry.name)} is in the bin for ${String(BIN_DAYS)} days.`, {
    label: say`Put it back`,
    run: () => void attempt(() => putBack(entry)),
  });
}

export async function putBack({ id }: Pick<BinEntry, 'id'>): Promise<void> {
  const { name } = await ask('bin/put-back', { id });
  await lookAgain();
  tellDone(say`${isolated(name)} is back.`);
}

/** Removes one entry for good, null: all. What is said of it, and what was learnt from it, goes as well. */
export async function emptyBin(id: string | null): Promise<void> {
  await ask('bin/empty', { id });
  forgetLearntPoints();
  setApp({ messages: app.get().messages.filter(({ kind }) => kind !== 'done') });
}

async function lookAgain(): Promise<void> {
  await Promise.all([readBook(), readSwingAgain()]);
}
