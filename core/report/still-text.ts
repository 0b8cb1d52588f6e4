import { say, lowered } from '../model/say.ts';
import { isolated } from '../model/isolated.ts';
import { STILL_CAUTIONS } from './captions.ts';
import type { StillFrame, StillPage } from './stills.ts';

/**
 * A still as plain text, for whoever cannot see it: what the pictures show, then everything that stands beside them, in the same words
 * and numbers. Ends with a line end.
 */
export function stillText({ panels, phone, headline, comparisons, notes }: StillPage): string {
  const shown = panels.map(pictureWords);
  const said =
    phone === null
      ? [
          ...panels.flatMap(readingLines),
          ...comparisons.map(
            ({ label, then, now, difference, verdict }) =>
              say`${label}: then ${then}, now ${now}, difference ${difference}, ${verdict}.`,
          ),
          ...notes,
          ...STILL_CAUTIONS,
        ]
      : [
          ...phone.lines.map(
            ({ label, number, verdict }) => `${label}: ${number}${verdict === '' ? '' : `, ${verdict}`}.`,
          ),
          phone.rest.names,
          phone.caution,
        ];
  const lines = [headline === null ? '' : `${headline}.`, ...shown, ...said];
  return `${lines.filter((line) => line !== '').join('\n')}\n`;
}

/** "Then: Robin at top, down the line, 7 iron, 14 April 2026." */
function pictureWords({ look, caption }: StillFrame): string {
  const { firstName, checkpoint, view, club, date } = caption;
  const which = { plain: say`Picture`, then: say`Picture then`, now: say`Picture now` }[look];
  return say`${which}: ${isolated(firstName)} at ${lowered(checkpoint)}, ${lowered(view)}, ${isolated(club)}, ${date}.`;
}

/** The readings of a picture, which one of several said where there are several. */
function readingLines({ readings, caption }: StillFrame): readonly string[] {
  return readings.map(({ label, value }) => say`${label} at ${lowered(caption.checkpoint)}: ${value}.`);
}
