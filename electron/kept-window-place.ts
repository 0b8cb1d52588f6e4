import { readFileSync, writeFileSync } from 'node:fs';
import { screen, type BrowserWindow } from 'electron';
import { placeOnScreens, windowPlaceOf, type WindowPlace } from './window-place.ts';

/** A moved window is moved on and on: its place is written once it rests, ms. */
const REST_MS = 500;

/** Where the window stood last, on the screens that are there now; null: it opens as usual. */
export function readWindowPlace(path: string): WindowPlace | null {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch {
    return null;
  }
  const last = windowPlaceOf(text);
  const screens = screen.getAllDisplays().map(({ workArea }) => workArea);
  return last === null ? null : placeOnScreens(last, screens);
}

/** Writes the window's place whenever it has come to rest, and when it closes. Where that fails it opens as usual. */
export function keepWindowPlace(window: BrowserWindow, path: string): void {
  let resting: NodeJS.Timeout | null = null;
  const write = (): void => {
    if (resting !== null) clearTimeout(resting);
    resting = null;
    if (window.isDestroyed() || window.isMinimized() || window.isFullScreen()) return;
    const place: WindowPlace = { ...window.getNormalBounds(), maximised: window.isMaximized() };
    try {
      writeFileSync(path, JSON.stringify(place));
    } catch {
      // A place is not worth a message.
    }
  };
  const rest = (): void => {
    if (resting !== null) clearTimeout(resting);
    resting = setTimeout(write, REST_MS);
  };
  for (const event of ['resize', 'move', 'maximize', 'unmaximize'] as const) window.on(event as 'resize', rest);
  window.on('close', write);
  window.on('closed', () => {
    if (resting !== null) clearTimeout(resting);
  });
}
