import { describe, expect, it } from 'vitest';
import { AppError } from '../../core/model/errors.ts';
import type { SoundEnvelope } from '../../core/model/sound.ts';
import { ClipSounds } from '../../electron/clip-sounds.ts';
import type { ReadSound } from '../../electron/clip-sounds.ts';

const CLICK: SoundEnvelope = { from: 0, step: 0.005, peaks: Uint8Array.of(3, 255, 9) };

/** Sounds that tell which clip was read; a reading that waits ends when it is stopped. */
function recorded(waits: boolean) {
  const log: string[] = [];
  const read: ReadSound = (clipId, signal) => {
    log.push(`read ${clipId}`);
    if (!waits) return Promise.resolve(CLICK);
    return new Promise((_resolve, reject) => {
      signal.addEventListener('abort', () => {
        log.push(`stop ${clipId}`);
        reject(new AppError('cancelled', 'Stopped.'));
      });
    });
  };
  return { sounds: new ClipSounds(read), log };
}

describe('the sound of a clip', () => {
  it('is read once, also when it is asked for twice at the same time', async () => {
    const { sounds, log } = recorded(false);
    expect(await Promise.all([sounds.sound('a'), sounds.sound('a')])).toEqual([CLICK, CLICK]);
    expect(await sounds.sound('a')).toBe(CLICK);
    expect(log).toEqual(['read a']);
  });

  it('is kept of the sixteen clips asked for last', async () => {
    const { sounds, log } = recorded(false);
    const clips = Array.from({ length: 16 }, (_, place) => `clip ${String(place)}`);
    for (const clip of [...clips, 'clip 0', 'one more', 'clip 0', 'clip 1']) await sounds.sound(clip);
    // All were there until one more came; then the one longest unused went.
    expect(log).toEqual([...clips, 'one more', 'clip 1'].map((clip) => `read ${clip}`));
  });

  it('stops being read when its clip is closed, and is read anew when it is asked for again', async () => {
    const { sounds, log } = recorded(true);
    const asked = sounds.sound('a');
    const other = sounds.sound('b');
    await sounds.close('a');
    await sounds.close('a');
    await expect(asked).rejects.toMatchObject({ code: 'cancelled' });
    const again = sounds.sound('a');
    await sounds.closeAll();
    await expect(Promise.allSettled([again, other])).resolves.toMatchObject([
      { status: 'rejected' },
      { status: 'rejected' },
    ]);
    expect(log).toEqual(['read a', 'read b', 'stop a', 'read a', 'stop b', 'stop a']);
  });

  it('is read no more once the program ends', async () => {
    const { sounds, log } = recorded(true);
    const asked = sounds.sound('a');
    await sounds.end();
    await expect(asked).rejects.toMatchObject({ code: 'cancelled' });
    await expect(sounds.sound('b')).rejects.toMatchObject({ code: 'cancelled' });
    expect(log).toEqual(['read a', 'stop a']);
  });

  it('that could not be read is tried again the next time', async () => {
    let there = false;
    const sounds = new ClipSounds(() =>
      there ? Promise.resolve(null) : Promise.reject(new AppError('clip-moved', 'The clip is not there any more.')),
    );
    await expect(sounds.sound('a')).rejects.toMatchObject({ code: 'clip-moved' });
    there = true;
    expect(await sounds.sound('a')).toBeNull();
  });
});
