import { existsSync } from 'node:fs';
import type { FoundElectron } from '../../core/runtime/find-electron.ts';

/** The options before the project folder that Electron needs on this machine; shared by the start command and the tests. */
export function chooseElectronOptions(machine: {
  readonly platform: NodeJS.Platform;
  readonly root: boolean;
  readonly graphicsDevice: boolean;
}): string[] {
  if (machine.platform !== 'linux') return [];
  return [
    // Chromium's sandbox refuses to start as root.
    ...(machine.root ? ['--no-sandbox'] : []),
    // Without a graphics device the graphics process fails a few times before the window appears.
    ...(machine.graphicsDevice ? [] : ['--disable-gpu']),
  ];
}

export function readMachine(): Parameters<typeof chooseElectronOptions>[0] {
  return {
    platform: process.platform,
    root: process.getuid?.() === 0,
    graphicsDevice: existsSync('/dev/dri'),
  };
}

/** Set by some editors' terminals; it would make Electron act as plain Node. */
const ACT_AS_NODE = 'ELECTRON_RUN_AS_NODE';
/** Carries `sqliteBinding` into the main process, where core/book opens with it. */
const SQLITE_BINDING_VARIABLE = 'BAYBOOK_SQLITE_BINDING';

/** The environment for Electron: ours, with the SQLite binary made for it (and none made for another). */
export function chooseElectronEnvironment(found: FoundElectron, base: NodeJS.ProcessEnv): Record<string, string> {
  const environment: Record<string, string> = {};
  for (const [name, value] of Object.entries(base))
    if (value !== undefined && name !== ACT_AS_NODE && name !== SQLITE_BINDING_VARIABLE) environment[name] = value;
  if (found.sqliteBinding !== null) environment[SQLITE_BINDING_VARIABLE] = found.sqliteBinding;
  return environment;
}
