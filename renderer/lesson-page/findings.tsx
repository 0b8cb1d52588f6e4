import { useMemo } from 'react';
import { say } from '../../core/model/say.ts';
import type { BookSwing } from '../../core/model/book.ts';
import { marksShownOn } from '../../core/model/swing.ts';
import { cropAroundPlayer } from '../../core/painting/crop.ts';
import { marksAt } from '../../core/model/swing.ts';
import { CHECKPOINTS } from '../../core/model/words.ts';
import type { OfferedFinding, OtherReading, SentFinding, SentLesson } from '../../core/report/sent-lesson.ts';
import { openBench, showReading } from '../bench/state/bench-actions.ts';
import { Button } from '../controls/button.tsx';
import { Picker, TextEntry } from '../controls/fields.tsx';
import { goBack } from '../shell/state/go-back.ts';
import { Still } from '../swing/still.tsx';
import { addFinding, moveFinding, removeFinding, setFindingWords } from './state/page-actions.ts';
import styles from './lesson-page.module.css';
import lay from '../controls/lay.module.css';

const MOST_WORDS = 1000;
/** So many misses are offered; the rest is in the list of readings. */
const MOST_OFFERED = 4;

interface FindingsProps {
  readonly swing: BookSwing;
  readonly then: BookSwing | null;
  /** null until the swing was read. */
  readonly lesson: SentLesson | null;
  readonly offers: readonly OfferedFinding[];
  readonly readable: readonly OtherReading[];
}

/** What was found, the most important first: each with its still, its number and the coach's words. */
export function Findings({ swing, then, lesson, offers, readable }: FindingsProps) {
  const { findings } = swing.page;
  return (
    <section className={styles.part} aria-label={say`Findings`}>
      <h3>{say`What you found`}</h3>
      {findings.length > 0 ? (
        <ol>
          {findings.map(({ words }, index) => (
            <FindingRow
              key={`${String(index)} ${JSON.stringify(findings[index]?.reading)}`}
              swing={swing}
              isCompared={then !== null}
              index={index}
              count={findings.length}
              words={words}
              finding={lesson?.findings[index] ?? null}
            />
          ))}
        </ol>
      ) : (
        <p
          className={lay.soft}
        >{say`A finding is a reading with its still and your words. The most important stands first.`}</p>
      )}
      {offers.length === 0 ? null : (
        <div className={styles.offers}>
          <p className={lay.soft}>{say`Off target in this swing, with your goals’ own words for it:`}</p>
          {offers.slice(0, MOST_OFFERED).map((offer) => (
            <div key={offer.label} className={styles.offer}>
              <span>
                <strong>{offer.label}</strong>: {offer.number}, {offer.side === 'low' ? say`too low` : say`too high`}
              </span>
              <Button
                small
                label={say`Take as a finding: ${offer.label}`}
                onPress={() => addFinding(offer)}
              >{say`Take`}</Button>
            </div>
          ))}
        </div>
      )}
      <Picker
        label={say`Add another reading`}
        value=""
        none={say`Choose a reading`}
        options={readable.map(({ label, number }) => ({ value: label, label: `${label}: ${number}` }))}
        onChange={(label) => {
          const found = readable.find((each) => each.label === label);
          if (found !== undefined) addFinding({ reading: found.reading, words: '' });
        }}
      />
    </section>
  );
}

function FindingRow(props: {
  readonly swing: BookSwing;
  readonly isCompared: boolean;
  readonly index: number;
  readonly count: number;
  readonly words: string;
  readonly finding: SentFinding | null;
}) {
  const { swing, isCompared, index, count, words, finding } = props;
  const label = finding?.label ?? '';
  return (
    <li className={styles.finding}>
      <FindingStill swing={swing} isCompared={isCompared} index={index} />
      <div className={styles.words}>
        <div className={styles.title}>
          <strong>
            {index + 1}. {label}
          </strong>
          <Button
            small
            look="quiet"
            label={say`More important: ${label}`}
            disabled={index === 0}
            onPress={() => moveFinding(index, -1)}
          >{say`Up`}</Button>
          <Button
            small
            look="quiet"
            label={say`Less important: ${label}`}
            disabled={index === count - 1}
            onPress={() => moveFinding(index, 1)}
          >{say`Down`}</Button>
          <Button
            small
            look="quiet"
            label={say`Remove finding: ${label}`}
            onPress={() => removeFinding(index)}
          >{say`Remove`}</Button>
        </div>
        {finding === null ? null : (
          <p>
            <span className={styles.number}>{finding.number ?? say`Not read in this swing`}</span>
            {finding.goal === null ? null : `, ${finding.goal}`}
          </p>
        )}
        {finding === null || finding.change === null ? null : <p className={lay.soft}>{finding.change}</p>}
        <TextEntry
          label={say`In your words`}
          long
          value={words}
          maxLength={MOST_WORDS}
          onChange={(text) => setFindingWords(index, text)}
        />
      </div>
    </li>
  );
}

/** The frame that the reading is read on; a press opens it on the bench with the reading drawn. */
function FindingStill(props: { readonly swing: BookSwing; readonly isCompared: boolean; readonly index: number }) {
  const { swing, isCompared, index } = props;
  const reading = swing.page.findings[index]?.reading;
  const clip = swing.clips.find((each) => each.view === reading?.view);
  const frame = reading === undefined ? undefined : clip?.checkpoints[reading.checkpoint];
  const crop = useMemo(
    () =>
      clip === undefined
        ? null
        : cropAroundPlayer(
            CHECKPOINTS.flatMap((checkpoint) => marksAt(clip, checkpoint) ?? []),
            clip,
          ),
    [clip],
  );
  if (clip === undefined || frame === undefined || reading === undefined)
    return <p className={styles.none}>{say`This frame is not named in this swing`}</p>;
  const open = (): void => {
    goBack();
    openBench(clip.id, frame.index);
    showReading(reading);
  };
  return (
    <Button look="quiet" label={say`Show it on the bench`} onPress={open}>
      <div style={{ width: 104 }}>
        <Still
          clip={clip}
          index={frame.index}
          marks={marksShownOn(clip, frame)}
          look={isCompared ? 'now' : 'plain'}
          quality="proxy"
          crop={crop}
        />
      </div>
    </Button>
  );
}
