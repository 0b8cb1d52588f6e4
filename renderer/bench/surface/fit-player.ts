import { playerOfClip } from '../../../core/painting/crop.ts';
import { fit } from '../../canvas/bench-view.ts';
import { app } from '../../shell/state/app-state.ts';
import { benchClip } from '../state/bench-actions.ts';

/** Fits the player of the clip on the bench as it is marked by now; pressed again, the whole picture. */
export function fitPlayer(): void {
  const clip = benchClip(app.get());
  fit(clip === null ? null : playerOfClip(clip));
}
