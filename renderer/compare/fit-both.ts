import { layOver } from '../../core/compare/lay-over.ts';
import { playerOfBoth } from '../../core/painting/crop.ts';
import { fit } from '../canvas/bench-view.ts';
import { app } from '../shell/state/app-state.ts';
import { comparedClips } from './state/comparing.ts';

/** Fits the player of then and now alike; pressed again, the whole picture. */
export function fitBoth(): void {
  const { swing, then } = app.get();
  const clips = comparedClips(app.get());
  if (clips === null || swing === null || then === null) return;
  const laid = layOver(
    { clip: clips.then, handedness: then.lesson.handedness },
    { clip: clips.now, handedness: swing.lesson.handedness },
  );
  fit(laid === null ? null : playerOfBoth(clips.then, clips.now, laid.beside));
}
