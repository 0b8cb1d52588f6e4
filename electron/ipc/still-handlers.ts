import { say } from '../../core/model/say.ts';
import { basename } from 'node:path';
import { placingOfBook } from '../../core/jobs/placing-of-book.ts';
import { planStills } from '../../core/jobs/plan-stills.ts';
import { swingOfBook } from '../../core/jobs/swing-source.ts';
import { AppError } from '../../core/model/errors.ts';
import { PHONE_SIZE, type StillFormat } from '../../core/report/still-file.ts';
import type { Handlers } from './answer.ts';
import type { StillPlace } from './contract.ts';
import { requireConsent } from './consent.ts';
import type { Program } from './handlers.ts';

type StillRequests =
  | 'stills/save'
  | 'stills/show-folder'
  | 'stills/copy'
  | 'stills/copy-text'
  | 'stills/drag'
  | 'drag/start';

/** Stills as files in a folder of the coach's, or one of them to be pasted. */
export function stillHandlers(program: Program): Pick<Handlers, StillRequests> {
  const { book, clipboard, dialogs, findFfmpeg, granted, jobs, outgoing } = program;

  const swingsOf = ({ swingId, thenSwingId }: { swingId: string; thenSwingId: string | null }) => {
    requireConsent(book.openSwing(swingId));
    return {
      now: swingOfBook(book, swingId),
      then: thenSwingId === null ? null : swingOfBook(book, thenSwingId),
    };
  };

  /** A job: one still for a phone. */
  function makeStill(
    what: string,
    format: StillFormat,
    { jobId, checkpoint, view, ...swings }: StillPlace & { readonly jobId: string },
  ) {
    const both = swingsOf(swings);
    return jobs.run(jobId, what, async (run) => {
      const { makeStills } = await import('../../core/jobs/save-stills.ts');
      const { goals } = book.readGoals();
      const shown = { ...both, checkpoints: [checkpoint], views: [view], goals, placing: placingOfBook(book) };
      const size = { layout: 'phone', format, width: PHONE_SIZE.width } as const;
      const [still] = await makeStills({ ...shown, ...size }, await findFfmpeg(), run);
      if (still === undefined) throw new Error('a view and a checkpoint make one still');
      return still;
    });
  }

  return {
    async 'stills/save'({ jobId, swingId, thenSwingId, folder: named, ...order }) {
      if (named !== null && !granted.hasFolder(named))
        throw new AppError('bad-request', say`Choose the folder for the stills in the folder dialog.`);
      // Read before the coach is asked for a folder: what is missing is said at once.
      const { now, then } = swingsOf({ swingId, thenSwingId });
      const folder = named ?? (await dialogs.chooseStillsFolder());
      if (folder === null) return null;
      const saved = await jobs.run(jobId, say`Saving stills`, async (run) => {
        // Loaded when first needed, with the native code that paints: the window opens sooner.
        const { saveStills } = await import('../../core/jobs/save-stills.ts');
        const { goals } = book.readGoals();
        const placing = placingOfBook(book);
        return saveStills({ ...order, now, then, goals, placing, folder, existing: 'number' }, await findFfmpeg(), run);
      });
      granted.grantFolder(folder);
      return { folder, files: saved.map(({ path }) => path) };
    },

    async 'stills/copy'(place) {
      const still = await makeStill(say`Copying the still`, 'png', place);
      await clipboard.writePicture(still.bytes);
      return null;
    },

    async 'stills/drag'(place) {
      const still = await makeStill(say`Getting the still ready`, 'jpeg', place);
      const path = await outgoing.put(basename(still.name), still.bytes);
      granted.grantFile(path);
      return { path };
    },

    'drag/start'({ path }) {
      if (!granted.hasFile(path))
        throw new AppError('bad-request', say`Only files that were saved here can be dragged out.`);
      program.dragFile(path);
      return null;
    },

    async 'stills/copy-text'({ checkpoint, view, ...swings }) {
      const { now, then } = swingsOf(swings);
      const [still] = planStills({
        ...{ now: now.swing, then: then?.swing ?? null, goals: book.readGoals().goals },
        ...{ placing: placingOfBook(book), checkpoints: [checkpoint], views: [view], layout: 'phone' },
      });
      if (still === undefined) throw new Error('a view and a checkpoint make one still');
      await clipboard.writeText(still.text);
      return null;
    },

    async 'stills/show-folder'({ folder }) {
      if (!granted.hasFolder(folder))
        throw new AppError('bad-request', say`Only folders that stills were saved to can be shown.`);
      await dialogs.showFolder(folder);
      return null;
    },
  };
}
