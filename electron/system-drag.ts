import { nativeImage, type BrowserWindow } from 'electron';

/** Height of the picture under the pointer, pixels. */
const HEIGHT = 96;

/** Lets the hand that holds the mouse button carry a file out of the window. */
export function dragFile(window: BrowserWindow | null, path: string): void {
  const picture = nativeImage.createFromPath(path);
  // Electron takes no drag without a picture; of a video there is none.
  const icon = picture.isEmpty() ? plainIcon() : picture.resize({ height: HEIGHT });
  window?.webContents.startDrag({ file: path, icon });
}

function plainIcon() {
  const [width, height] = [48, 32];
  return nativeImage.createFromBitmap(Buffer.alloc(width * height * 4, 0x88), { width, height });
}
