import { describe, expect, it } from 'vitest';
import { AppError } from '../../core/model/errors.ts';
import { OpenClips } from '../../electron/open-clips.ts';

/** Clips that tell what was asked of them; picture bytes are [index]. */
function recorded() {
  const log: string[] = [];
  const clips = new OpenClips(async (clipId) => {
    log.push(`open ${clipId}`);
    return {
      exact: async (index) => Uint8Array.of(index),
      close: async () => void log.push(`close ${clipId}`),
    };
  });
  const ask = (clipId: string, index: number) => clips.picture({ clipId, index });
  return { clips, log, ask };
}

describe('clips that are looked at', () => {
  it('are opened once, and give pictures', async () => {
    const { ask, log } = recorded();
    expect(await ask('a', 7)).toEqual({ bytes: Uint8Array.of(7), type: 'image/png' });
    expect(await ask('a', 8)).toEqual({ bytes: Uint8Array.of(8), type: 'image/png' });
    expect(log).toEqual(['open a']);
  });

  it('are closed when four others were used since, and not before', async () => {
    const { ask, log } = recorded();
    for (const clipId of ['a', 'b', 'c', 'd', 'a', 'e']) await ask(clipId, 0);
    expect(log.filter((line) => line.startsWith('close'))).toEqual(['close b']);
  });

  it('are closed before they are removed, all on demand, and then opened anew', async () => {
    const { clips, ask, log } = recorded();
    await ask('a', 0);
    await ask('b', 0);
    await clips.close('a');
    await clips.close('a');
    await clips.closeAll();
    await ask('a', 0);
    expect(log).toEqual(['open a', 'open b', 'close a', 'close b', 'open a']);
  });

  it('are opened no more once the program ends', async () => {
    const { clips, ask, log } = recorded();
    await ask('a', 0);
    await clips.end();
    await expect(ask('a', 0)).rejects.toMatchObject({ code: 'cancelled' });
    expect(log).toEqual(['open a', 'close a']);
  });

  it('that could not be opened are tried again the next time', async () => {
    let there = false;
    const clips = new OpenClips(async () => {
      if (!there) throw new AppError('clip-moved', 'The clip is not there any more.');
      return { exact: async () => Uint8Array.of(1), close: async () => undefined };
    });
    const request = { clipId: 'a', index: 0 };
    await expect(clips.picture(request)).rejects.toMatchObject({ code: 'clip-moved' });
    there = true;
    expect((await clips.picture(request)).type).toBe('image/png');
  });
});
