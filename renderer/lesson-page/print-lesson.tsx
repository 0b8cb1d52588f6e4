import { say } from '../../core/model/say.ts';
import type { LessonFilesOrder } from '../../electron/ipc/contract.ts';
import { ask } from '../api.ts';
import { runJob } from '../shell/state/jobs.ts';
import { printOut } from '../shell/state/printing.ts';
import { PrintedPages } from './printed-pages.tsx';
import { pagesOfPdf } from './pdf-pages.ts';
import { orderOfLesson } from './state/page-actions.ts';

/** Prints the page of the lesson, the very pages of its PDF, by the system's dialog. */
export async function printLesson(paper: LessonFilesOrder['paper']): Promise<void> {
  const lesson = await orderOfLesson();
  if (lesson === null) return;
  const pages = await runJob(say`Making the pages`, async (jobId) =>
    pagesOfPdf(await ask('lesson/pdf', { ...lesson, paper, jobId })),
  );
  const urls = pages.map((page) => URL.createObjectURL(page));
  try {
    await printOut(<PrintedPages pages={urls} paper={paper} />, paper);
  } finally {
    for (const url of urls) URL.revokeObjectURL(url);
  }
}
