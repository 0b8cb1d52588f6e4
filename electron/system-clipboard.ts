import electron, { clipboard, nativeImage, type NativeImage } from 'electron';

/**
 * The system's clipboard; what is on it leaves the program only where the coach pastes it. Electron 45 writes items by their MIME
 * type; the one that is carried for machines without a way to fetch it (33) has a call for pictures instead.
 */
export const systemClipboard = {
  async writePicture(png: Uint8Array): Promise<void> {
    const either: object = clipboard;
    if (writesImages(either)) {
      either.writeImage(nativeImage.createFromBuffer(Buffer.from(png)));
      return;
    }
    const picture = new Blob([Uint8Array.from(png)], { type: 'image/png' });
    await clipboard.write([new electron.ClipboardItem({ 'image/png': picture })]);
  },
  async writeText(text: string): Promise<void> {
    await clipboard.writeText(text);
  },
};

function writesImages(clipboard: object): clipboard is { writeImage(image: NativeImage): void } {
  return 'writeImage' in clipboard && typeof clipboard.writeImage === 'function';
}
