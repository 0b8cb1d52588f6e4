import { memo, useDeferredValue, useMemo, useState } from 'react';
import { say } from '../../../core/model/say.ts';
import { cameraOfClip, groundMarksOf } from '../../../core/measure/camera/camera-of-clip.ts';
import { cameraInWords } from '../../../core/measure/words/camera-words.ts';
import type { CameraSentence } from '../../../core/measure/words/camera-words.ts';
import { ASSUMED_PLACING } from '../../../core/measure/uncertainty/placing.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { Handedness } from '../../../core/model/words.ts';
import { chooseTool } from '../state/bench-actions.ts';
import styles from '../bench-page.module.css';
import lay from '../../controls/lay.module.css';
import groundStyles from './ground-panel.module.css';
import { LayingSticks } from './laying-sticks.tsx';
import { Button } from '../../controls/button.tsx';

/** Where the camera stood and what its lens does, as far as marks tell, and what that means for readings. Folded. */
export const CameraCard = memo(function CameraCard(props: {
  readonly clip: BookClip;
  readonly handedness: Handedness;
}) {
  const [helps, setHelps] = useState(false);
  // Worked out after the edit itself is on screen.
  const clip = useDeferredValue(props.clip);
  const { handedness } = props;
  const words = useMemo(() => {
    const layout = groundMarksOf(clip, ASSUMED_PLACING)?.shape.layout ?? 'mat';
    return cameraInWords(cameraOfClip(clip, handedness, ASSUMED_PLACING), clip.view, layout);
  }, [clip, handedness]);
  const { summary, ground, lens, upright, scale } = words;
  return (
    <details className={`${styles.card ?? ''} ${groundStyles.fold ?? ''}`}>
      <summary>
        <h2>{say`Camera`}</h2>
        <span className={groundStyles.summary}>{summary}</span>
      </summary>
      <div className={groundStyles.facts}>
        <Facts
          title={say`Where it stood`}
          sentences={ground}
        >{say`Not known: mark the ground. Until then the ± ignores a camera that stood off line.`}</Facts>
        <Facts
          title={say`Upright`}
          sentences={upright}
        >{say`Not known: draw a line along an edge that is plumb or level, and say so.`}</Facts>
        <Facts
          title={say`Lens`}
          sentences={lens}
        >{say`Not known: mark a straight edge near the rim of the picture.`}</Facts>
        <Facts title={say`Scale`} sentences={scale}>{say`Not known: draw a line of known length, and say so.`}</Facts>
        <p className={lay.soft}>{say`Each ± assumes that places are clicked to 3 px in a picture 1080 lines high.`}</p>
        <div className={styles.row}>
          <Button small onPress={() => chooseTool('ground')}>{say`Mark the ground`}</Button>
          <Button small onPress={() => chooseTool('edge')}>{say`Mark a straight edge`}</Button>
          <Button small onPress={() => setHelps(true)}>{say`How to lay the sticks`}</Button>
        </div>
      </div>
      {helps ? <LayingSticks onClose={() => setHelps(false)} /> : null}
    </details>
  );
});

/** What is known under one heading; `children` where that is nothing. */
function Facts(props: {
  readonly title: string;
  readonly sentences: readonly CameraSentence[];
  readonly children: string;
}) {
  const { title, sentences, children } = props;
  return (
    <section aria-label={title}>
      <h3>{title}</h3>
      {sentences.map(({ text, warns }) => (
        <p key={text} className={warns === true ? groundStyles.trouble : undefined}>
          {text}
        </p>
      ))}
      {sentences.length === 0 ? <p className={lay.soft}>{children}</p> : null}
    </section>
  );
}
