import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import { rateQuestion } from '../../core/measure/doubts/rate-question.ts';
import type { BookClip } from '../../core/model/book.ts';
import type { Ratio } from '../../core/model/frame.ts';
import { setCaptureRate } from './state/edit-actions.ts';
import { Button } from '../controls/button.tsx';
import { FormDialog } from '../controls/dialog.tsx';
import { TextEntry } from '../controls/fields.tsx';
import { rateInWords, typedRate } from '../shell/words.ts';

/** Rates that phones and cameras offer. */
const USUAL = ['30', '60', '120', '240'] as const;
const HIGHEST_RATE = 10_000;
const NO_RATE = say`Type a number above 0 and up to 10,000, such as 240.`;

/** A typed rate as an exact ratio (three decimals), or null when it is no rate. */
function parsedRate(text: string): Ratio | null {
  const number = Number(text.trim().replace(',', '.'));
  if (!Number.isFinite(number) || number <= 0 || number > HIGHEST_RATE) return null;
  return Number.isInteger(number) ? { num: number, den: 1 } : { num: Math.round(number * 1000), den: 1000 };
}

/**
 * How many frames a second the camera really took. The file often does not say, or says how it plays instead; only the
 * coach knows. Without it times are those on screen.
 */
export function RateDialog({ clip, onClose }: { readonly clip: BookClip; readonly onClose: () => void }) {
  const told = clip.captureRate;
  const [text, setText] = useState(told === null ? '' : typedRate(told.framesPerSecond));
  const played = clip.nominalRate === null ? '' : say` It plays at ${rateInWords(clip.nominalRate)} fps.`;
  const rate = parsedRate(text);
  const untouched = told !== null && text === typedRate(told.framesPerSecond);
  // What the coach is about to take is asked about here; the readings ask again where it was taken all the same.
  const question = rate === null ? null : rateQuestion(clip, rate);
  const keep = () => {
    const framesPerSecond = untouched ? told.framesPerSecond : rate;
    if (framesPerSecond === null) return;
    onClose();
    setCaptureRate(clip.id, { framesPerSecond, confirmed: true });
  };
  return (
    <FormDialog
      title={say`How fast was it filmed?`}
      doIt={untouched && !told.confirmed ? say`That is right` : say`Use this rate`}
      onDo={keep}
      onClose={onClose}
      disabled={rate === null}
    >
      <p>
        {told === null
          ? say`The file does not say how many frames a second the camera took.${played}`
          : told.confirmed
            ? say`You said ${rateInWords(told.framesPerSecond)} fps.${played}`
            : say`The file says ${rateInWords(told.framesPerSecond)} fps. Is that the real rate?${played}`}
      </p>
      <div style={{ display: 'flex', gap: 8, flexWrap: 'wrap' }} role="group" aria-label={say`Usual rates`}>
        {USUAL.map((usual) => (
          <Button key={usual} pressed={text === usual} onPress={() => setText(usual)}>
            {usual}
          </Button>
        ))}
      </div>
      <TextEntry
        label={say`Frames a second`}
        value={text}
        onChange={setText}
        trouble={rate === null && text.trim() !== '' ? NO_RATE : null}
        hint={say`Look it up in the camera's settings. Backswing, downswing and other times rest on it.`}
      />
      <p role="status">{question === null ? null : <strong>{question}</strong>}</p>
      <div>
        <Button
          look="quiet"
          onPress={() => {
            onClose();
            setCaptureRate(clip.id, null);
          }}
        >{say`I do not know: show times as on screen`}</Button>
      </div>
    </FormDialog>
  );
}
