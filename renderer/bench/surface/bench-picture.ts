import { benchView, resize } from '../../canvas/bench-view.ts';
import { setShownPicture } from '../../canvas/shown-picture.ts';
import type { ShownPicture } from '../../canvas/shown-picture.ts';
import { app, setBench } from '../../shell/state/app-state.ts';
import type { BenchPicture } from '../../shell/state/app-state.ts';
import { run } from '../playback/state/playback.ts';
import type { PictureSource } from './use-picture.ts';

const PICTURES: Readonly<Record<ShownPicture['quality'], BenchPicture>> = {
  proxy: 'quick',
  sharp: 'exact',
  none: 'none',
};

/** The picture of the frame on the bench, while that is of the clip. */
export function benchPictureOf(clipId: string): PictureSource {
  return {
    view: () => benchView.get().view,
    resized: resize,
    wanted() {
      const { bench } = app.get();
      const { running, every } = run.get();
      if (bench?.clipId !== clipId) return null;
      return { index: bench.index, every: running ? every : 0, hold: bench.draft !== null };
    },
    shown(index, quality) {
      const { bench } = app.get();
      setShownPicture({ clip: clipId, index, quality });
      if (bench?.clipId === clipId && bench.index === index) setBench({ picture: PICTURES[quality] });
    },
    gone: () => setShownPicture(null),
  };
}
