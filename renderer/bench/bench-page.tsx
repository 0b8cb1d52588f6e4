import { useEffect, useMemo } from 'react';
import { say } from '../../core/model/say.ts';
import { CHECKPOINTS } from '../../core/model/words.ts';
import { app } from '../shell/state/app-state.ts';
import { benchClip } from './state/bench-actions.ts';
import { useStore } from '../shell/state/store.ts';
import { withMarks } from '../swing/state/swing-edit.ts';
import { BenchCanvas } from './surface/bench-canvas.tsx';
import styles from './bench-page.module.css';
import { CameraCard } from './marks/camera-card.tsx';
import { ChainsPanel } from './readings/chains-panel.tsx';
import { FrameName } from './frame-name.tsx';
import { MarkPanel } from './mark-panel.tsx';
import { ReadingsPanel } from './readings/readings-panel.tsx';
import type { Style } from '../../core/painting/styles.ts';
import { ownGoals } from '../goals/state/goals.ts';
import { pictureReadings } from './state/picture-readings.ts';
import { readingsInSight } from './state/readings-in-sight.ts';
import { keysOnPicture, readingsOnPicture } from './surface/readings-on-picture.ts';
import { NO_SOURCES, sourcesOf } from './surface/shown-sources.ts';
import { Stages } from './surface/stages.tsx';
import { TimeBar } from './playback/time-bar.tsx';
import { ToolBar } from './tool-bar.tsx';
import { benchHand } from './surface/bench-hand.ts';
import { useKeys } from './surface/use-keys.ts';
import { useReport } from '../swing/use-report.ts';

/**
 * One cell of the sheet at full size: the frame, what is marked on it, and what can be read from that. While a mark is
 * dragged this renders with every move; its parts, which have nothing to do with that, do not.
 */
export function BenchPage() {
  const swing = useStore(app, (state) => state.swing);
  const then = useStore(app, (state) => state.then);
  const at = useStore(app, (state) => state.bench?.index ?? null);
  const draft = useStore(app, (state) => state.bench?.draft ?? null);
  const shownReading = useStore(app, (state) => state.bench?.shownReading ?? null);
  const clip = useStore(app, benchClip);
  const index = useStore(app, (state) => (clip === null ? undefined : state.indexes[clip.id]));
  const onPicture = useStore(pictureReadings, (state) => state.shown);
  const goals = useStore(ownGoals, (state) => state.goals);
  useKeys(benchHand);

  // While a mark is dragged its readings follow.
  const live = useMemo(() => {
    if (swing === null || draft === null || clip === null) return swing;
    return { ...swing, clips: swing.clips.map((each) => (each.id === clip.id ? withMarks(each, draft) : each)) };
  }, [swing, draft, clip]);
  const shown = useReport(live, then);
  const look: Style = then === null ? 'plain' : 'now';
  const clipId = clip?.id;
  const sources = useMemo(() => {
    if (shown === null || clipId === undefined || at === null) return NO_SOURCES;
    const place = { swing: shown.swing, clipId, index: at, look };
    // The one that is looked at stands alone.
    if (shownReading !== null) return sourcesOf(shownReading, shown.report, place);
    return { ...NO_SOURCES, lines: readingsOnPicture(shown.report, onPicture, { ...place, goals }) };
  }, [shown, shownReading, clipId, at, look, onPicture, goals]);
  useEffect(() => {
    if (shown === null || clipId === undefined || at === null) return;
    const place = { swing: shown.swing, clipId, index: at, goals };
    const keys = shownReading === null ? keysOnPicture(shown.report, onPicture, place) : [shownReading];
    readingsInSight.update(() => keys);
  }, [shown, shownReading, clipId, at, onPicture, goals]);

  if (swing === null || at === null || clip === null || index === undefined) return null;
  const here = CHECKPOINTS.find((checkpoint) => clip.checkpoints[checkpoint]?.index === at) ?? null;
  return (
    <div className={styles.bench}>
      <ToolBar clip={clip} />
      <section className={styles.middle} aria-label={say`Frame`}>
        <Stages clip={clip} index={index}>
          <BenchCanvas key={clip.id} clip={clip} index={index} sources={sources} />
        </Stages>
      </section>
      <aside className={styles.side} aria-label={say`Readings and marks`}>
        <div className={styles.scrolls} data-scrolls>
          <FrameName clip={clip} />
          <MarkPanel />
          {shown === null ? null : (
            <ReadingsPanel swing={swing} clip={clip} report={shown.report} at={at} here={here} />
          )}
          {[...(shown?.report.questions ?? []), ...(shown?.report.warnings ?? [])].map((warning) => (
            <p key={warning} className={styles.warning}>
              {warning}
            </p>
          ))}
        </div>
        <div className={styles.foot}>
          <CameraCard clip={clip} handedness={swing.lesson.handedness} />
          {shown === null ? null : <ChainsPanel swing={swing} report={shown.report} />}
        </div>
      </aside>
      <TimeBar clip={clip} index={index} />
    </div>
  );
}
