import { mkdtemp, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { _electron, type ElectronApplication, type Page } from 'playwright-core';
import { buildProgram } from '../../electron/runtime/build-program.ts';
import { SCREENLESS_TEST_NEEDS, meetNeeds } from '../../electron/bare-machine/debian-packages.ts';
import {
  chooseElectronEnvironment,
  chooseElectronOptions,
  readMachine,
} from '../../electron/runtime/launch-options.ts';
import { takeElectron } from '../../electron/runtime/take-electron.ts';
import { openVirtualScreen, type VirtualScreen } from '../support/virtual-screen.ts';

/** A running Baybook with a window on a screen of its own, and the hands to work it. */
export interface RunningBaybook {
  readonly app: ElectronApplication;
  readonly window: Page;
  readonly bookFolder: string;
  readonly userData: string;
  /** What the program has written to its output so far, for a failing test's message. */
  log(): string;
  /** Saves what the window shows as PNG. */
  screenshot(path: string): Promise<void>;
  /** Ends the program and its screen, and removes the folders that were made for it. Safe to call twice. */
  close(): Promise<void>;
}

export interface LaunchOptions {
  /** The book to open; by default a new temporary folder, removed by `close`. A folder given here is left alone. */
  readonly bookFolder?: string;
  /** Settings of the program; by default a new temporary folder, removed by `close`. */
  readonly userData?: string;
  /** Size of the window's content in CSS pixels. */
  readonly width?: number;
  readonly height?: number;
  /** The window is left where and as large as it opens. */
  readonly asItOpens?: boolean;
  readonly environment?: Readonly<Record<string, string>>;
  /** Another app than this project, started as it is, for what this project is held against. */
  readonly otherApp?: string;
  /** Makes a program that starts Electron, given its path, in a folder by itself and named `electron`; answers the folder. */
  readonly startedBy?: (electron: string) => Promise<string>;
  /** Options of Chromium's, as `--name=value`. */
  readonly chromium?: readonly string[];
}

const START_LIMIT = 60_000;
const CLOSE_LIMIT = 10_000;
const SCREEN_MARGIN = 64;
const OWN_PROJECT = join(import.meta.dirname, '..', '..');
const { cache, resolve } = createRequire(import.meta.url);

/**
 * Opens Baybook as a coach would, on the runtime that `npm start` would take, after building it when its sources are
 * newer. Everything it writes goes to folders of its own, so that tests do not see each other.
 */
export async function launchBaybook(options: LaunchOptions = {}): Promise<RunningBaybook> {
  const appFolder = options.otherApp ?? OWN_PROJECT;
  const width = options.width ?? 1280;
  const height = options.height ?? 800;
  const lines: string[] = [];
  const say = (line: string): void => void lines.push(line);

  const electron = await takeElectron(OWN_PROJECT, say);
  if (appFolder === OWN_PROJECT) await buildProgram(OWN_PROJECT, say);
  const screen = await openScreenIfNone(width, height, say);
  const temporary: string[] = [];
  const makeFolder = async (name: string): Promise<string> => {
    const folder = await mkdtemp(join(tmpdir(), `baybook-${name}-`));
    temporary.push(folder);
    return folder;
  };
  const bookFolder = options.bookFolder ?? (await makeFolder('book'));
  const userData = options.userData ?? (await makeFolder('settings'));

  const cleanUp = async (): Promise<void> => {
    await screen?.close();
    await Promise.all(temporary.map((folder) => rm(folder, { recursive: true, force: true, maxRetries: 5 })));
  };

  try {
    // Not by executablePath: the driver holds back only an Electron that it found itself until it has connected; else
    // the two race, and now and then the driver waits for ever. The pinned one it finds; for the carried one Electron's
    // package has this variable.
    const dist = (await options.startedBy?.(electron.executable)) ?? dirname(electron.executable);
    if (electron.kind === 'carried' || options.startedBy !== undefined)
      process.env['ELECTRON_OVERRIDE_DIST_PATH'] = dist;
    // That package finds its Electron once a process, and files of this project share one.
    Reflect.deleteProperty(cache, resolve('electron/index.js'));
    const app = await _electron.launch({
      args: [...chooseElectronOptions(readMachine()), ...(options.chromium ?? []), appFolder],
      cwd: appFolder,
      timeout: START_LIMIT,
      env: {
        ...chooseElectronEnvironment(electron, process.env),
        ...(screen === null ? {} : { DISPLAY: screen.display }),
        // Chromium asks a session bus for the system's settings; without one it complains on every start.
        DBUS_SESSION_BUS_ADDRESS: 'disabled:',
        // Days are written alike on every machine.
        LC_ALL: 'C.UTF-8',
        BAYBOOK_BOOK: bookFolder,
        BAYBOOK_USER_DATA: userData,
        ...options.environment,
      },
    });
    app.process().stdout?.on('data', (chunk: Buffer) => lines.push(chunk.toString()));
    app.process().stderr?.on('data', (chunk: Buffer) => lines.push(chunk.toString()));
    const end = closeOnce(app, cleanUp);
    try {
      const window = await app.firstWindow({ timeout: START_LIMIT });
      if (options.asItOpens !== true) await setContentSize(app, window, width, height);
      return {
        app,
        window,
        bookFolder,
        userData,
        log: () => lines.join('\n'),
        screenshot: async (path) => void (await window.screenshot({ path })),
        close: end,
      };
    } catch (error) {
      await end();
      throw error;
    }
  } catch (error) {
    await cleanUp();
    throw new Error(`Baybook's window did not open. It said:\n${lines.join('\n').slice(-3000)}`, { cause: error });
  }
}

/** Null where there is a screen, or where the system is not one that can be without. */
async function openScreenIfNone(
  width: number,
  height: number,
  say: (line: string) => void,
): Promise<VirtualScreen | null> {
  if (process.platform !== 'linux' || process.env['DISPLAY'] || process.env['WAYLAND_DISPLAY']) return null;
  await meetNeeds(SCREENLESS_TEST_NEEDS, say);
  // Larger than the window: Chromium makes a window as large as the screen one pixel smaller, lest it be taken for full screen.
  return openVirtualScreen(width + SCREEN_MARGIN, height + SCREEN_MARGIN);
}

/** Sets the size and waits until the page has it, which on X11 is a moment later. */
async function setContentSize(app: ElectronApplication, window: Page, width: number, height: number): Promise<void> {
  const handle = await app.browserWindow(window);
  await handle.evaluate(
    (browserWindow, size) => {
      browserWindow.setMinimumSize(1, 1);
      browserWindow.setPosition(0, 0);
      browserWindow.setContentSize(size.width, size.height);
    },
    { width, height },
  );
  await window.waitForFunction((size) => innerWidth === size.width && innerHeight === size.height, { width, height });
}

function closeOnce(app: ElectronApplication, cleanUp: () => Promise<void>): () => Promise<void> {
  // Once the program has ended it can no longer be asked for its process.
  const process = app.process();
  let closing: Promise<void> | null = null;
  const end = async (): Promise<void> => {
    const timer = setTimeout(() => process.kill('SIGKILL'), CLOSE_LIMIT);
    // It may have been killed by the test itself, which then makes `close` reject.
    await app.close().catch(() => undefined);
    clearTimeout(timer);
    await cleanUp();
  };
  return () => (closing ??= end());
}
