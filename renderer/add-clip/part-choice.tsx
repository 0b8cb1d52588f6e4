import type { ClipSummary } from '../../core/time/clip-summary.ts';
import { say } from '../../core/model/say.ts';
import { CUT } from '../../core/time/swing-cut.ts';
import { Check, Picker } from '../controls/fields.tsx';
import { countInWords } from '../shell/words.ts';
import styles from './part-choice.module.css';
import { PreviewPicture } from './preview-picture.tsx';
import { SpanChoice } from './span-choice.tsx';
import type { SwingSearch } from './use-found-swings.ts';
import type { OfferedSwing, Parts } from './use-parts.ts';

const NEW_SWING = 'new';
/** Of a picture in the list, CSS pixels. */
const HIGH = 60;

/** Which swings of a clip to keep: those that were found in it, or one part that is set by hand. */
export function PartChoice({ look, parts }: { readonly look: ClipSummary; readonly parts: Parts }) {
  const { search, swings, span } = parts;
  return (
    <>
      {look.long ? (
        <div role="group" aria-label={say`Swings in this clip`} className={styles.found}>
          <p role="status">{searchInWords(search, swings)}</p>
          {swings.length === 0 ? null : (
            <ul className={styles.swings}>
              {swings.map((swing) => (
                <li key={swing.impact} className={styles.swing} data-ticked={swing.ticked}>
                  <FoundSwing {...{ look, parts, swing }} />
                </li>
              ))}
            </ul>
          )}
        </div>
      ) : null}
      {span === null ? (
        <p>
          {say`Of each swing ${CUT.before} s before the strike are kept and ${CUT.after} s after it, picture for picture as they are.`}
        </p>
      ) : (
        <SpanChoice look={look} span={span} onChange={parts.setSpan} />
      )}
    </>
  );
}

function FoundSwing(props: { readonly look: ClipSummary; readonly parts: Parts; readonly swing: OfferedSwing }) {
  const { look, parts, swing } = props;
  const { impact, ticked, to, asks } = swing;
  const isOneOfSome = ticked && parts.parts.length > 1;
  const place = parts.places.find(({ swingId }) => swingId === to);
  return (
    <>
      <PreviewPicture
        frame={impact}
        label={say`The strike at ${timeOf(look, impact)}`}
        width={look.width}
        height={look.height}
        high={HIGH}
      />
      <div className={styles.facts}>
        <Check checked={ticked} onChange={(isTicked) => parts.tick(impact, isTicked)}>
          {timeOf(look, impact)}
        </Check>
        <span className={styles.words}>{witnessesInWords(swing)}</span>
        {isOneOfSome && asks ? (
          <Picker
            label={say`Which swing is it?`}
            value={place?.swingId ?? NEW_SWING}
            options={[
              ...parts.places.map(({ swingId, label }) => ({ value: swingId, label })),
              { value: NEW_SWING, label: say`A new swing` },
            ]}
            onChange={(value) => parts.send(impact, value === NEW_SWING ? null : value)}
          />
        ) : null}
        {isOneOfSome && !asks ? (
          <span className={styles.words}>
            {place === undefined ? say`Becomes a new swing` : say`Goes to ${place.label}`}
          </span>
        ) : null}
      </div>
    </>
  );
}

function searchInWords(search: SwingSearch, offered: readonly OfferedSwing[]): string {
  if (search.state === 'trouble') return say`This clip could not be looked through for swings. Set the part by hand.`;
  if (search.state === 'looking')
    return say`Looking for swings: ${Math.floor(100 * search.share)} %. You can set the part by hand meanwhile.`;
  const others = search.swings.length - offered.length;
  const left = others === 0 ? '' : ` ${leftInWords(others)}`;
  if (offered.length === 0) return say`No strike was seen or heard. Set the part by hand.` + left;
  const found =
    offered.length === 1
      ? say`1 swing found.`
      : say`${countInWords(offered.length)} swings found. Tick all that you want.`;
  return found + left;
}

function leftInWords(others: number): string {
  return others === 1
    ? say`1 other movement without a strike is not listed: a practice swing, or a club that is lowered.`
    : say`${countInWords(others)} other movements without a strike are not listed: practice swings, or a club that is lowered.`;
}

function witnessesInWords({ seen, heard }: OfferedSwing): string {
  if (seen) return heard ? say`The ball goes, a strike is heard` : say`The ball goes`;
  return say`Unsure: a strike is heard, no ball is seen`;
}

/** A time of the clip as players show it, e.g. "1:04.3". */
function timeOf({ times }: ClipSummary, frame: number): string {
  const seconds = times[frame] ?? 0;
  const rest = (seconds % 60).toFixed(1);
  return `${String(Math.floor(seconds / 60))}:${rest.padStart(4, '0')}`;
}
