import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { ElectronApplication } from 'playwright-core';

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

/** Violations of the accessibility rules that a coach with a screen reader or weak eyes would run into. */
export async function seriousViolations(app: ElectronApplication): Promise<string[]> {
  await app.evaluate(
    ({ BrowserWindow }, source) => {
      return BrowserWindow.getAllWindows()[0]?.webContents.executeJavaScript(`${source}; undefined`);
    },
    await readFile(AXE, 'utf8'),
  );
  const found: unknown = await app.evaluate(({ BrowserWindow }) =>
    BrowserWindow.getAllWindows()[0]?.webContents.executeJavaScript(
      `axe.run(document).then(({ violations }) => violations
        .filter(({ impact }) => impact === 'serious' || impact === 'critical')
        .map(({ id, nodes }) => id + ': ' + nodes.map(({ html }) => html).join(' ')))`,
    ),
  );
  return found as string[];
}
