import { useState } from 'react';
import type { KeyboardEvent } from 'react';
import { lowered, say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import type { BookSwing } from '../../core/model/book.ts';
import type { FrameRef } from '../../core/model/frame.ts';
import type { Shape } from '../../core/model/mark.ts';
import { TALK_LIMITS, type Talk, type TalkPane } from '../../core/model/talk.ts';
import { fullLabelOf } from '../../core/measure/words/format.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import { kindOf } from '../../core/shapes/shapes.ts';
import { stateAt } from '../../core/talk/talk-state.ts';
import { Button } from '../controls/button.tsx';
import { Picker, TextEntry } from '../controls/fields.tsx';
import { app } from '../shell/state/app-state.ts';
import { useStore } from '../shell/state/store.ts';
import { changeTalk } from '../swing/state/edit-actions.ts';
import { clockOf } from './recording-controls.tsx';
import { cursor } from './state/cursor.ts';
import styles from './put-right.module.css';
import lay from '../controls/lay.module.css';

interface HereProps {
  readonly talk: Talk;
  readonly swing: BookSwing;
  readonly then: BookSwing | null;
}

/** What is seen and read at the cursor, and how it is made another. */
export function HerePanel({ talk, swing, then }: HereProps) {
  const time = useStore(cursor, (state) => state.time);
  const state = stateAt(talk, time);
  if (state === null) return null;
  const findings = swing.page.findings.map(({ reading }) => fullLabelOf(reading));
  return (
    <section className={styles.here} aria-label={say`At this time`}>
      <h2>{said`At ${clockOf(time / 1000)}`}</h2>
      <Caption key={`${state.caption} ${String(time)}`} time={time} words={state.caption} />
      {state.panes.map((pane, place) => (
        <FrameOfPane
          key={`${pane.which} ${pane.view}`}
          {...{ pane, place, time }}
          swing={pane.which === 'now' ? swing : then}
        />
      ))}
      {findings.length === 0 ? null : (
        <Picker
          label={say`Finding that begins here`}
          value={findings.includes(state.chapter) ? state.chapter : ''}
          none={say`None`}
          options={findings.map((label) => ({ value: label, label }))}
          onChange={(title) => changeTalk({ kind: 'chapter', at: time, title: title ?? '' })}
        />
      )}
      {state.drawings.length === 0 ? null : (
        <>
          <h3>{say`Drawings`}</h3>
          <p className={lay.soft}>{say`Drag one in the picture to move it, or press arrow keys on its name.`}</p>
          <ul>
            {state.drawings.map(({ shape }) => (
              <Drawing key={shape.id} shape={shape} />
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

/** The words from here on; kept once the field is left, so that a sentence is one change. */
function Caption({ time, words }: { readonly time: number; readonly words: string }) {
  const [typed, setTyped] = useState(words);
  const keep = (): void => {
    const text = typed.replaceAll(/\s+/g, ' ').trim();
    if (text !== words) changeTalk({ kind: 'caption', at: time, text });
  };
  return (
    <div onBlur={keep} onKeyDown={({ key }) => key === 'Enter' && keep()}>
      <TextEntry
        label={say`Caption from here on`}
        hint={say`Leave it empty for none.`}
        value={typed}
        maxLength={TALK_LIMITS.text}
        onChange={setTyped}
      />
    </div>
  );
}

interface FrameProps {
  readonly pane: TalkPane;
  readonly place: number;
  readonly time: number;
  readonly swing: BookSwing | null;
}

/** Which frame a picture shows, and others in its place. */
function FrameOfPane({ pane, place, time, swing }: FrameProps) {
  const clip = swing?.clips.find(({ view }) => view === pane.view);
  const frames = useStore(app, (state) => (clip === undefined ? undefined : state.indexes[clip.id]?.frames));
  const view = lowered(VIEW_LABELS[pane.view]);
  const name = pane.which === 'then' ? say`then, ${view}` : view;
  const swap = (frame: FrameRef): void => changeTalk({ kind: 'swap-frame', at: time, pane: place, frame });
  const step = (by: -1 | 1): void => {
    const index = pane.frame.index + by;
    const frame = frames?.[index];
    if (frame !== undefined) swap({ index, pts: frame.pts });
  };
  const named = CHECKPOINTS.filter((checkpoint) => clip?.checkpoints[checkpoint] !== undefined);
  const here = named.find((checkpoint) => clip?.checkpoints[checkpoint]?.index === pane.frame.index);
  return (
    <div className={styles.frame}>
      <Picker
        label={say`Frame, ${name}`}
        value={here ?? ''}
        none={say`Frame ${String(pane.frame.index)}`}
        options={named.map((checkpoint) => ({ value: checkpoint, label: CHECKPOINT_LABELS[checkpoint] }))}
        onChange={(checkpoint) => {
          const found = checkpoint === null ? undefined : clip?.checkpoints[checkpoint];
          if (found !== undefined) swap({ index: found.index, pts: found.pts });
        }}
      />
      <Button
        small
        look="quiet"
        label={say`−1, one frame back, ${name}`}
        disabled={frames === undefined}
        onPress={() => step(-1)}
      >
        −1
      </Button>
      <Button
        small
        look="quiet"
        label={say`+1, one frame on, ${name}`}
        disabled={frames === undefined}
        onPress={() => step(1)}
      >
        +1
      </Button>
    </div>
  );
}

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
const STEP = 2;

function Drawing({ shape }: { readonly shape: Shape }) {
  const name = kindOf(shape).label;
  const onKey = (event: KeyboardEvent): void => {
    const way = ARROWS[event.key];
    if (way === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    const by = event.shiftKey ? 10 * STEP : STEP;
    const moved = kindOf(shape).moved(shape, null, { x: way[0] * by, y: way[1] * by });
    changeTalk({ kind: 'move-drawing', shape: moved });
  };
  return (
    <li className={styles.drawing}>
      <button type="button" className={styles.name} onKeyDown={onKey} aria-label={say`${name}: arrow keys move it`}>
        {name}
      </button>
      <Button
        small
        look="quiet"
        label={say`Remove drawing: ${name}`}
        onPress={() => changeTalk({ kind: 'remove-drawing', shape: shape.id })}
      >{say`Remove`}</Button>
    </li>
  );
}
