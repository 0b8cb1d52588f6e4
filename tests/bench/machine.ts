import { arch, cpus, release, totalmem, type } from 'node:os';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { launchBaybook } from '../e2e/launch.ts';

/** What the figures were taken on. */
export interface Machine {
  readonly processor: string;
  readonly cores: number;
  readonly memoryGb: number;
  readonly system: string;
  readonly node: string;
  readonly ffmpeg: string;
  /** With the Chromium it holds; null when the window could not be opened. */
  readonly electron: string | null;
}

export interface WhereMeasured {
  readonly machine: Machine;
  /** What draws, as Chromium tells it. */
  readonly renderer: string;
}

const GB = 1024 ** 3;

export async function readMachine(ffmpeg: Ffmpeg, say: (line: string) => void): Promise<WhereMeasured> {
  const window = await readWindow().catch((error: unknown) => {
    say(`the window could not be asked what it draws with: ${String(error)}`);
    return { electron: null, renderer: 'unknown' };
  });
  const processors = cpus();
  return {
    machine: {
      processor: processors[0]?.model.trim() ?? 'unknown',
      cores: processors.length,
      memoryGb: Number((totalmem() / GB).toFixed(1)),
      system: `${type()} ${release()} ${arch()}`,
      node: process.version,
      ffmpeg: ffmpeg.version,
      electron: window.electron,
    },
    renderer: window.renderer,
  };
}

async function readWindow(): Promise<{ electron: string; renderer: string }> {
  const program = await launchBaybook();
  try {
    const { electron, features } = await program.app.evaluate(({ app }) => ({
      electron: `${process.versions.electron}, Chromium ${process.versions['chrome'] ?? 'unknown'}`,
      features: app.getGPUFeatureStatus(),
    }));
    const webgl = await program.window.evaluate(() => {
      const context = new OffscreenCanvas(1, 1).getContext('webgl');
      const names = context?.getExtension('WEBGL_debug_renderer_info') ?? null;
      const name: unknown =
        context === null || names === null ? null : context.getParameter(names.UNMASKED_RENDERER_WEBGL);
      return typeof name === 'string' ? name : 'no WebGL';
    });
    const { '2d_canvas': canvas, gpu_compositing: compositing, video_decode: decode } = features;
    return { electron, renderer: `${webgl}; canvas ${canvas}; compositing ${compositing}; video decode ${decode}` };
  } finally {
    await program.close();
  }
}
