import workerUrl from 'pdfjs-dist/legacy/build/pdf.worker.min.mjs?worker&url';

/** Dots to the inch of a printed page: as fine as a usual printer. */
const RESOLUTION = 300;
const POINTS_AN_INCH = 72;

/** The pages of a PDF as PNG pictures, in order. Fetched with the first that is printed: the window opens sooner. */
export async function pagesOfPdf(data: Uint8Array): Promise<readonly Blob[]> {
  const { getDocument, GlobalWorkerOptions } = await import('pdfjs-dist/legacy/build/pdf.mjs');
  GlobalWorkerOptions.workerSrc = workerUrl;
  const loading = getDocument({ data });
  try {
    const pdf = await loading.promise;
    const pages: Blob[] = [];
    for (let number = 1; number <= pdf.numPages; number += 1) {
      const page = await pdf.getPage(number);
      const viewport = page.getViewport({ scale: RESOLUTION / POINTS_AN_INCH });
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [Math.round(viewport.width), Math.round(viewport.height)];
      await page.render({ canvas, viewport, intent: 'print' }).promise;
      const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve));
      if (blob === null) throw new Error('a page became no picture');
      pages.push(blob);
    }
    return pages;
  } finally {
    await loading.destroy();
  }
}
