import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { createCanvas } from '@napi-rs/canvas';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { sized } from '../support/sized.ts';
import { within } from '../support/within.ts';
import { answerDialogs } from './page-hands.ts';

/** Dots to the inch at which two pages are laid side by side. */
const COARSE = 40;

interface PrintJob {
  readonly options: Electron.WebContentsPrintOptions;
  readonly pdf: string;
}

/** A PDF's pages: size in points, text, and how dark each place of a coarse picture is, 0 to 255. */
async function pagesOf(data: Uint8Array) {
  const pdf = await getDocument({ data: Uint8Array.from(data) }).promise;
  const pages = [];
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const page = await pdf.getPage(number);
    const viewport = page.getViewport({ scale: COARSE / 72 });
    const canvas = createCanvas(Math.round(viewport.width), Math.round(viewport.height));
    const context = canvas.getContext('2d');
    await page.render({ canvas: canvas as never, canvasContext: context as never, viewport }).promise;
    const { data: rgba } = context.getImageData(0, 0, canvas.width, canvas.height);
    const dark = Array.from({ length: canvas.width * canvas.height }, (_, at) => 255 - (rgba[4 * at + 1] ?? 0));
    const { items } = await page.getTextContent();
    const [, , width = 0, height = 0] = page.view;
    pages.push({ width, height, dark, text: items.map((item) => ('str' in item ? item.str : '')).join(' ') });
  }
  await pdf.loadingTask.destroy();
  return pages;
}

function apart(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, dark, at) => sum + Math.abs(dark - (other[at] ?? 0)), 0);
}

/** Paper from the program. What the system's printer would get is caught where Electron is asked to print, and kept as PDF. */
describe('printing', () => {
  let demo: DemoProgram;
  let page: Page;

  beforeAll(async () => {
    demo = await openDemoProgram('printing');
    page = demo.page;
  });
  afterAll(() => demo.close());

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name, exact: true });

  /** From now on the computer has these printers; of what is printed on them the jobs are kept, and each ends so. */
  async function havePrinters(names: readonly string[], failure: string | null = null): Promise<void> {
    await demo.program.app.evaluate(
      ({ BrowserWindow }, [printers, reason]) => {
        const contents = BrowserWindow.getAllWindows()[0]?.webContents;
        if (contents === undefined) throw new Error('no window');
        contents.getPrintersAsync = async () => printers.map((name) => ({ name }) as Electron.PrinterInfo);
        contents.print = (options = {}, done = () => undefined) => {
          const { pageSize, margins, printBackground } = options;
          const paper = pageSize === undefined ? {} : { pageSize: pageSize as 'A4' };
          const edges = margins === undefined ? {} : { margins: { top: 0, bottom: 0, left: 0, right: 0 } };
          void contents.printToPDF({ ...paper, ...edges, printBackground: printBackground === true }).then((pdf) => {
            Object.assign(globalThis, { printJob: { options, pdf: pdf.toString('base64') } });
            done(reason === null, reason ?? '');
          });
        };
      },
      [[...names], failure] as const,
    );
  }
  const lastJob = (): Promise<PrintJob> =>
    demo.program.app.evaluate(() => (globalThis as unknown as { printJob: PrintJob }).printJob);
  const keep = async (name: string, pdf: Uint8Array): Promise<void> => {
    const folder = process.env['BAYBOOK_PICTURES'];
    if (folder === undefined) return;
    await mkdir(folder, { recursive: true });
    await writeFile(join(folder, name), pdf);
  };

  test('without a printer says what to do', async () => {
    await havePrinters([]);
    await button('Help').click();
    await button('Filming guide').click();
    await button('Print this guide').click();
    await page.getByText(/^No printer is set up on this computer\. Add one/).waitFor();
  });

  test('of the filming guide gives the printer all of the guide, and nothing of the window', async () => {
    await havePrinters(['Office']);
    await button('Print this guide').click();
    await page.getByText('Handed to the printer.').waitFor();
    const pdf = Buffer.from((await lastJob()).pdf, 'base64');
    await keep('printed-guide.pdf', pdf);
    const text = (await pagesOf(pdf)).map((each) => each.text).join(' ');
    for (const said of ['Filming guide', 'Where the camera stands', 'Keep the camera and everybody out of reach'])
      expect(text).toContain(said);
    expect(text).not.toMatch(/Print this guide|Students|Settings/);
    await page.keyboard.press('Escape');
  });

  test.each(
    sized(
      [['A4', 595, 842]] as const,
      [
        ['A4', 595, 842],
        ['Letter', 612, 792],
      ] as const,
    ),
  )('of a lesson gives the printer the very pages of its PDF, on %s', async (paper, width, height) => {
    const file = join(demo.folder, `${paper}.pdf`);
    if (!(await button('Save PDF').isVisible())) {
      await demo.openSwing();
      await button('Lesson page').click();
      await page.getByLabel('Key thought 1').fill('Turn, then swing.');
    }
    await page.getByText(paper, { exact: true }).click();
    await answerDialogs(demo.program.app, file);
    await button('Save PDF').click();
    await page.getByText(new RegExp(`^Saved .*${paper}\\.pdf`)).waitFor({ timeout: 120_000 });
    await havePrinters(['Office']);
    await button('Print').click();
    await page.getByText('Handed to the printer.').waitFor({ timeout: 120_000 });
    const { options, pdf } = await lastJob();
    expect(options).toMatchObject({ pageSize: paper, margins: { marginType: 'none' } });
    await keep(`printed-${paper}.pdf`, Buffer.from(pdf, 'base64'));
    const [printed, saved] = [await pagesOf(Buffer.from(pdf, 'base64')), await pagesOf(await readFile(file))];
    expect(printed.length).toBe(saved.length);
    for (const [number, each] of printed.entries()) {
      // Electron names papers in inches with two decimals.
      within(each.width, width, 1.5);
      within(each.height, height, 1.5);
      const [is, should] = [each.dark, saved[number]?.dark ?? []];
      // Two rasters of one page are never the same; but nothing is a tenth of an inch from its place.
      for (const moved of [4, 4 * Math.round((width * COARSE) / 72)])
        expect(apart(is, should)).toBeLessThan(0.6 * apart(is, [...should.slice(moved), ...should.slice(0, moved)]));
    }
  });

  test('that the coach closes is no trouble, and one that fails says what to do', async () => {
    await havePrinters(['Office'], 'Print job canceled');
    await button('Print').click();
    await expect.poll(() => page.getByRole('progressbar').count(), { timeout: 60_000 }).toBe(0);
    expect(await page.getByText(/The printer took nothing/).count()).toBe(0);
    await havePrinters(['Office'], 'Print job failed');
    await button('Print').click();
    await page.getByText(/^The printer took nothing\. Look whether it is on/).waitFor({ timeout: 60_000 });
    expect(await page.locator('[data-printed]').count()).toBe(0);
  });
});
