import type { BookSwing } from '../../core/model/book.ts';
import type { TalkPane } from '../../core/model/talk.ts';
import type { PictureQuality } from '../../core/model/picture-layout.ts';
import { app } from '../shell/state/app-state.ts';
import { tellTrouble } from '../shell/state/messages.ts';
import { feed } from '../swing/feed.ts';

/** The clips' pictures of a preview: the last one of each place stands until the wanted one is there. */
export interface PreviewPictures {
  /** What there is for a place: of the pane, or of the one before it. Asks for the right one where it is missing. */
  of(place: number, pane: TalkPane, quality: PictureQuality): ImageBitmap | null;
  close(): void;
}

interface Shown {
  readonly key: string;
  readonly picture: ImageBitmap;
}

/** @param came called back when another picture is there */
export function previewPictures(
  swings: { readonly now: BookSwing; readonly then: BookSwing | null },
  came: () => void,
): PreviewPictures {
  const shown = new Map<number, Shown>();
  const wanted = new Map<number, { readonly key: string; readonly stop: AbortController }>();
  const clips = new Set<string>();
  let isOpen = true;

  async function fetch(place: number, key: string, clipId: string, index: number, quality: PictureQuality) {
    const stop = new AbortController();
    wanted.get(place)?.stop.abort();
    wanted.set(place, { key, stop });
    clips.add(clipId);
    try {
      const picture = await feed.picture(clipId, index, quality, stop.signal);
      if (!isOpen || wanted.get(place)?.key !== key) return picture.close();
      shown.get(place)?.picture.close();
      shown.set(place, { key, picture });
      came();
    } catch (error) {
      if (isOpen && !stop.signal.aborted) tellTrouble(error);
    }
  }

  return {
    of(place, pane, quality) {
      const clip = swings[pane.which]?.clips.find(({ view }) => view === pane.view);
      if (clip === undefined) return null;
      const table = app.get().indexes[clip.id]?.frames;
      const found = table?.findIndex(({ pts }) => pts === pane.frame.pts) ?? -1;
      const index = found < 0 ? pane.frame.index : found;
      const key = `${clip.id} ${String(index)} ${quality}`;
      const there = shown.get(place);
      if (there?.key !== key && wanted.get(place)?.key !== key) void fetch(place, key, clip.id, index, quality);
      // Another clip's picture in its place would be a lie.
      return there?.key.startsWith(`${clip.id} `) === true ? there.picture : null;
    },
    close() {
      isOpen = false;
      for (const { stop } of wanted.values()) stop.abort();
      for (const { picture } of shown.values()) picture.close();
      for (const clip of clips) feed.leave(clip);
    },
  };
}
