import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  endOf,
  lostPresses,
  makeBookWithBall,
  pressAndEnd,
  readBall,
  takeBall,
  type BallInBook,
  type End,
} from '../closing-session.ts';
import { launchBaybook, type RunningBaybook } from '../launch.ts';

/**
 * Runs on a small disk mounted at `process.argv[2]`, which holds the book, with room for settings and a folder elsewhere
 * under `process.argv[3]`. Each round named by the arguments after these fills the disk, presses, closes and answers
 * what is asked. Prints one JSON value that tells what came of each.
 */
const [, , disk = '', other = '', ...wanted] = process.argv;
const bookFolder = join(disk, 'book');
const userData = join(other, 'settings');
const keepingFolder = join(other, 'kept');
mkdirSync(userData, { recursive: true });
mkdirSync(keepingFolder);
await makeBookWithBall(bookFolder);

const filling = join(disk, 'fill');
/** Bytes of every size down to one page: nothing more fits. */
function fillDisk(): void {
  mkdirSync(filling, { recursive: true });
  for (const bytes of [1 << 20, 65_536, 4096])
    for (let count = 0; ; count += 1)
      try {
        writeFileSync(join(filling, `${String(bytes)}-${String(count)}`), Buffer.alloc(bytes));
      } catch {
        break;
      }
}
const makeRoom = (): void => rmSync(filling, { recursive: true, force: true });

interface Asked {
  readonly message: string;
  readonly detail: string;
  readonly buttons: readonly string[];
}

/** Answers the program's questions by the label of a button, one after the other, and keeps what was asked. */
async function answerQuestions({ app }: RunningBaybook, answers: readonly string[], folder: string): Promise<void> {
  await app.evaluate(
    ({ dialog }, { answers, folder }) => {
      const asked: Asked[] = [];
      Object.assign(globalThis, { asked });
      dialog.showMessageBox = (...given: unknown[]) => {
        const { message = '', detail = '', buttons = [] } = given.at(-1) as Partial<Asked>;
        asked.push({ message, detail, buttons });
        const answer = answers[asked.filter((each) => each.buttons.length > 0).length - 1];
        // Without an answer the question stays open, as in front of a coach who is away.
        return new Promise((resolve) => {
          const press = (label: string): void =>
            resolve({ response: Math.max(0, buttons.indexOf(label)), checkboxChecked: false });
          Object.assign(globalThis, { answer: press });
          if (buttons.length === 0 || answer !== undefined) press(answer ?? '');
        });
      };
      dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [folder] });
    },
    { answers, folder },
  );
}

async function questionsOf({ app }: RunningBaybook, count: number): Promise<readonly Asked[]> {
  for (;;) {
    const asked = await app.evaluate(() => (globalThis as unknown as { asked: Asked[] }).asked);
    if (asked.length >= count) return asked;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** A round on the full disk: the program in front of its question, and the book as it was before. */
async function pressOnFullDisk(
  end: End,
  answers: readonly string[],
  folder = keepingFolder,
): Promise<{ readonly baybook: RunningBaybook; readonly before: BallInBook; readonly ended: Promise<number> }> {
  const baybook = await launchBaybook({ bookFolder, userData });
  await takeBall(baybook);
  const before = readBall(bookFolder);
  await answerQuestions(baybook, answers, folder);
  fillDisk();
  const ended = endOf(baybook.app);
  await pressAndEnd(baybook.app, end).catch(() => undefined);
  return { baybook, before, ended };
}

/** Starts the program with room on the disk, until it says that it has brought in what was kept. */
async function startAndTakeIn(): Promise<void> {
  const { window, close } = await launchBaybook({ bookFolder, userData });
  await window.getByText(/^Brought in \d+ changes/).waitFor();
  await close();
}

/** Files with changes beside the settings. */
const filesBeside = (): string[] => readdirSync(userData).filter((name) => /changes/.test(name));

const rounds: Record<string, unknown> = {};
const lostOf = (before: BallInBook): number => lostPresses(before, readBall(bookFolder));
const isUnchanged = (before: BallInBook): boolean => JSON.stringify(readBall(bookFolder)) === JSON.stringify(before);

/** Kept in another folder, and taken in at the next start. */
async function keptElsewhere(end: End): Promise<unknown> {
  const { baybook, before, ended } = await pressOnFullDisk(end, ['Save somewhere else']);
  const code = await ended;
  await baybook.close();
  const kept = readdirSync(keepingFolder).length;
  const lostBefore = lostOf(before);
  makeRoom();
  await startAndTakeIn();
  return { code, kept, lostBefore: lostBefore > 0, lost: lostOf(before), left: readdirSync(keepingFolder) };
}

const ROUNDS: Readonly<Record<string, () => Promise<unknown>>> = {
  elsewhere: () => keptElsewhere('close'),
  'elsewhere, by log-out': () => keptElsewhere('SIGTERM'),

  // A folder on the same full disk keeps nothing, says so, and asks again. Then it is killed in front of the question.
  killed: async () => {
    const { baybook, before, ended } = await pressOnFullDisk('close', ['Save somewhere else'], disk);
    const asked = await questionsOf(baybook, 3);
    baybook.app.process().kill('SIGKILL');
    await ended;
    await baybook.close();
    makeRoom();
    await startAndTakeIn();
    const [, told] = asked;
    return { told: told?.message, lost: lostOf(before), left: filesBeside() };
  },

  // With everything, and closes once there is room.
  'stays open': async () => {
    const { baybook, before, ended } = await pressOnFullDisk('quit', ['Keep Baybook open']);
    const asked = await questionsOf(baybook, 1);
    const { window } = baybook;
    await window.getByText('Not saved', { exact: true }).waitFor();
    await window
      .getByRole('alert')
      .getByText(/The disk is full/)
      .waitFor();
    makeRoom();
    // The window takes presses again.
    await window.getByRole('button', { name: 'Save again' }).click();
    await window.getByText('All saved').waitFor();
    await baybook.app.evaluate(({ app }) => app.quit()).catch(() => undefined);
    const code = await ended;
    await baybook.close();
    return { code, asked, lost: lostOf(before) };
  },

  // With room by then.
  'tries again': async () => {
    const { baybook, before, ended } = await pressOnFullDisk('none', []);
    await baybook.window.getByText('Not saved', { exact: true }).waitFor();
    await answerQuestions(baybook, [], keepingFolder);
    await baybook.app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.close());
    const [asked] = await questionsOf(baybook, 1);
    makeRoom();
    await baybook.app.evaluate(() => (globalThis as unknown as { answer(label: string): void }).answer('Try again'));
    const code = await ended;
    await baybook.close();
    return { code, buttons: asked?.buttons, lost: lostOf(before), left: filesBeside() };
  },

  // Only where somebody said so: in the question, or by ending it a second time from outside.
  'given up': async () => {
    const { baybook, before, ended } = await pressOnFullDisk('close', ['Close without saving']);
    const code = await ended;
    await baybook.close();
    makeRoom();
    return { code, unchanged: isUnchanged(before) };
  },

  'Ctrl+C twice': async () => {
    const { baybook, before, ended } = await pressOnFullDisk('SIGINT', []);
    await questionsOf(baybook, 1);
    // Within half a second it would be taken for the first one, sent twice; a quick machine asks sooner than that.
    await new Promise((resolve) => setTimeout(resolve, 700));
    const { pid } = baybook.app.process();
    if (pid !== undefined) process.kill(pid, 'SIGINT');
    const code = await ended;
    const said = /\d+ changes are not saved yet\. Baybook asks in its window/.test(baybook.log());
    await baybook.close();
    makeRoom();
    return { code, said, unchanged: isUnchanged(before) };
  },
};

for (const name of wanted) {
  const round = ROUNDS[name];
  if (round === undefined) throw new Error(`there is no round ${name}`);
  rounds[name] = await round();
}
console.log(JSON.stringify(rounds));
