import type { ElectronApplication, Locator, Page } from 'playwright-core';
import type { Outcome, RequestName, Requests } from '../../electron/ipc/contract.ts';
// Brings the type of window.baybook along.
import type {} from '../../renderer/api.ts';

/** What a test does inside the window's page. */

/** Answers the system's own file dialogs, which no test can press, with a path from now on. */
export async function answerDialogs(app: ElectronApplication, path: string): Promise<void> {
  await app.evaluate(({ dialog }, chosen) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [chosen] });
    dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: chosen });
  }, path);
}

/** From the bench to the sheet of its swing, by the trail in the window's head. */
export async function leaveBench(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Lesson sheet: / }).click();
  await page.getByRole('application').waitFor({ state: 'detached' });
}

/** Sends a request as the page does. */
export async function request<Name extends RequestName>(
  page: Page,
  name: Name,
  input: Requests[Name]['in'],
): Promise<Outcome<Requests[Name]['out']>> {
  // Playwright's type of what a page answers with is lost on a generic call.
  const outcome: unknown = await page.evaluate(([name, input]) => window.baybook.request(name, input as never), [
    name,
    input,
  ] as const);
  return outcome as Outcome<Requests[Name]['out']>;
}

/** Sends a request that must succeed, and returns its value. */
export async function ask<Name extends RequestName>(
  page: Page,
  name: Name,
  input: Requests[Name]['in'],
): Promise<Requests[Name]['out']> {
  const outcome = await request(page, name, input);
  if (outcome.ok) return outcome.value;
  throw new Error(`${name}: ${outcome.error.code}: ${outcome.error.message}`);
}

/** The file as the page gets it when the coach picks or drops it; returns the path the bridge gave for it. */
export async function handOver(page: Page, path: string): Promise<string | null> {
  await page.evaluate(() => {
    const input = document.createElement('input');
    input.type = 'file';
    input.id = 'test-file';
    document.body.append(input);
  });
  await page.setInputFiles('#test-file', path);
  return page.evaluate(() => {
    const input = document.querySelector<HTMLInputElement>('#test-file');
    const file = input?.files?.[0];
    input?.remove();
    return file === undefined ? null : window.baybook.pathOfDroppedFile(file);
  });
}

/**
 * Has the page press a button as soon as it is there, by the beginning of its name: one that a fast machine shows for less
 * time than a press from outside takes. To be called before what brings the button; what it returns waits for the press.
 */
export async function pressOnceThere(page: Page, name: string): Promise<() => Promise<void>> {
  await page.evaluate((name) => {
    const pressed = new Promise<void>((resolve) => {
      const observer = new MutationObserver(() => {
        const button = document.querySelector<HTMLElement>(`button[aria-label^="${name}"]`);
        if (button === null) return;
        observer.disconnect();
        button.click();
        resolve();
      });
      observer.observe(document.body, { childList: true, subtree: true, attributes: true });
    });
    Object.assign(window, { pressed });
  }, name);
  return () => page.evaluate(() => (window as unknown as { pressed: Promise<void> }).pressed);
}

/** Takes hold of something by the mouse and moves it; answers with the file that the program then offers to other programs. */
export async function draggedFile(app: ElectronApplication, page: Page, grip: Locator): Promise<string> {
  // What the system would do with it ends the test's mouse: it is caught where the program hands the file over.
  await app.evaluate(({ BrowserWindow }) => {
    const contents = BrowserWindow.getAllWindows()[0]?.webContents;
    if (contents === undefined) throw new Error('no window');
    contents.startDrag = (item) => void Object.assign(globalThis, { dragged: item });
  });
  await grip.scrollIntoViewIfNeeded();
  const box = await grip.boundingBox();
  if (box === null) throw new Error('there is nothing to take hold of');
  await page.mouse.move(box.x + 10, box.y + 10);
  await page.mouse.down();
  await page.mouse.move(box.x + 60, box.y + 60, { steps: 4 });
  try {
    for (let tries = 0; tries < 600; tries += 1) {
      const file = await app.evaluate(() => {
        const { dragged } = globalThis as unknown as { dragged?: Electron.Item };
        return dragged === undefined || dragged.icon === '' ? null : dragged.file;
      });
      if (file !== null) return file;
      await page.waitForTimeout(100);
    }
    throw new Error('no file was offered');
  } finally {
    await page.mouse.up();
    await app.evaluate(() => void Reflect.deleteProperty(globalThis, 'dragged'));
  }
}
