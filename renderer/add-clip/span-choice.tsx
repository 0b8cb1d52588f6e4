import { inFigures } from '../../core/model/language.ts';
import { useState } from 'react';
import { Input, Label, Slider, SliderOutput, SliderThumb, SliderTrack, TextField } from 'react-aria-components';
import { say } from '../../core/model/say.ts';
import type { FrameSpan } from '../../core/model/frame.ts';
import type { ClipSummary } from '../../core/time/clip-summary.ts';
import { beginningOf, nearestFrame } from '../../core/time/clip-summary.ts';
import fields from '../controls/fields.module.css';
import styles from './span-choice.module.css';
import { PreviewPicture } from './preview-picture.tsx';
import { countInWords } from '../shell/words.ts';

/** Which part of a clip to keep: two times to type, and both ends on one line to drag or to step by frames. */
export function SpanChoice(props: {
  readonly look: ClipSummary;
  readonly span: FrameSpan;
  readonly onChange: (span: FrameSpan) => void;
}) {
  const { look, span, onChange } = props;
  const last = look.frameCount - 1;
  return (
    <div className={styles.span} role="group" aria-label={say`The part to keep`}>
      <div className={styles.ends}>
        <SpanEnd
          label={say`From, seconds`}
          picture={say`First frame to keep`}
          look={look}
          frame={span.from}
          within={[0, span.to]}
          onChange={(from) => onChange({ ...span, from })}
        />
        <SpanEnd
          label={say`To, seconds`}
          picture={say`Last frame to keep`}
          look={look}
          frame={span.to}
          within={[span.from, last]}
          onChange={(to) => onChange({ ...span, to })}
        />
      </div>
      <Slider<number[]>
        className={styles.slider ?? ''}
        minValue={0}
        maxValue={last}
        value={[span.from, span.to]}
        onChange={([from, to]) => {
          if (from !== undefined && to !== undefined) onChange({ from, to });
        }}
      >
        <Label className={fields.label ?? ''}>{say`Frames`}</Label>
        <SliderOutput
          className={styles.output ?? ''}
        >{say`${countInWords(span.from)} to ${countInWords(span.to)}`}</SliderOutput>
        <SliderTrack className={styles.track ?? ''}>
          <div className={styles.line} />
          <div
            className={styles.kept}
            style={{ left: share(span.from, last), width: share(span.to - span.from, last) }}
          />
          <SliderThumb index={0} aria-label={say`First frame to keep`} className={styles.thumb ?? ''} />
          <SliderThumb index={1} aria-label={say`Last frame to keep`} className={styles.thumb ?? ''} />
        </SliderTrack>
      </Slider>
      <p className={fields.hint}>{keptInWords(look, span)}</p>
    </div>
  );
}

/** One end of the part, with its picture. */
function SpanEnd(props: {
  readonly label: string;
  /** What its picture shows, for those who cannot see it. */
  readonly picture: string;
  readonly look: ClipSummary;
  readonly frame: number;
  /** Frames it may be set to, both included. */
  readonly within: readonly [number, number];
  readonly onChange: (frame: number) => void;
}) {
  const { look, frame, within } = props;
  /** What is being typed; null shows the time of the frame. */
  const [typed, setTyped] = useState<string | null>(null);
  const go = (wanted: number): void => {
    setTyped(null);
    props.onChange(Math.min(within[1], Math.max(within[0], wanted)));
  };
  const take = (): void => {
    const seconds = Number(typed?.trim().replace(',', '.') || Number.NaN);
    // What is no number changes nothing: what was there before shows again.
    if (Number.isNaN(seconds)) setTyped(null);
    else go(nearestFrame(look.times, seconds));
  };
  return (
    <div className={styles.end}>
      <PreviewPicture frame={frame} label={props.picture} width={look.width} height={look.height} />
      <TextField
        className={fields.field ?? ''}
        inputMode="decimal"
        value={typed ?? inFigures((look.times[frame] ?? 0).toFixed(3))}
        onChange={setTyped}
        onBlur={take}
        onKeyDown={(event) => {
          const step = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : 0;
          if (step !== 0) go(frame + step);
          else if (event.key === 'Enter' && typed !== null) take();
          else return;
          // Enter takes what was typed; only the next one adds the clip.
          event.preventDefault();
        }}
      >
        <Label className={fields.label ?? ''}>{props.label}</Label>
        <Input className={fields.input ?? ''} />
      </TextField>
    </div>
  );
}

function share(frames: number, last: number): string {
  return `${String(last === 0 ? 0 : (100 * frames) / last)}%`;
}

/** What will be in the book, e.g. "Keeps 8.00 s, 240 frames, and 12 more before it, since ...". */
function keptInWords(look: ClipSummary, { from, to }: FrameSpan): string {
  const end = look.times[to + 1] ?? look.seconds;
  const earlier = from - beginningOf(look.keys, from);
  const before =
    earlier === 0
      ? ''
      : earlier === 1
        ? say` It begins 1 frame earlier; the clip can only be cut there.`
        : say` It begins ${countInWords(earlier)} frames earlier; the clip can only be cut there.`;
  const frames = to - from + 1;
  const seconds = inFigures((end - (look.times[from] ?? 0)).toFixed(2));
  return frames === 1
    ? say`Keeps ${seconds} s, 1 frame, picture for picture as they are.${before}`
    : say`Keeps ${seconds} s, ${countInWords(frames)} frames, picture for picture as they are.${before}`;
}
