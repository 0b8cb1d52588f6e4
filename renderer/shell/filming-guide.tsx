import { say } from '../../core/model/say.ts';
import { useState } from 'react';
import { AppError } from '../../core/model/errors.ts';
import { Button } from '../controls/button.tsx';
import { tellTrouble } from './state/messages.ts';
import { printOut } from './state/printing.ts';
import styles from './help-dialog.module.css';

interface Part {
  readonly title: string;
  readonly lines: readonly string[];
}

/**
 * How to film so that numbers can be trusted and compared next month. Heights and distances are common practice; what a
 * turned camera does to readings is from the program's own trials (docs/verdicts.md).
 */
const PARTS: readonly Part[] = [
  {
    title: say`Where the camera stands`,
    lines: [
      say`Down the line: behind the player, on a line through the hands, parallel to the target line.`,
      say`Face on: in front of the player, square to the target line, level with the middle of the stance.`,
      say`Height: the lens about as high as the hands at address. Use a tripod and level it.`,
      say`Distance: 4 to 5 m (13 to 16 ft), so that the whole swing fits with room above. Zoom in rather than stand near.`,
      say`Square matters: each degree off line moves the low point by about 1 cm, and a shoulder line by more than a degree.`,
    ],
  },
  {
    title: say`Camera settings`,
    lines: [
      say`Rate: 120 frames a second or more; 240 shows impact better. Clubhead speed needs at least 120.`,
      say`Shutter: 1/1000 s or shorter, so that the shaft is a line and not a fan. Give it light.`,
      say`Turn off digital zoom, steadying and wide-angle (0.5x): they bend or shift the picture.`,
      say`Lock focus and exposure before the swing.`,
    ],
  },
  {
    title: say`What to mark in the bay`,
    lines: [
      say`Something upright and something level in the picture, such as a door frame or a window sill.`,
      say`Something you can measure, beside the player: a club, a stick, the mat.`,
      say`On the ground: the corners of the mat, or two crossed sticks. Take them away before anyone swings.`,
    ],
  },
  {
    title: say`For next month`,
    lines: [
      say`Put tape where the tripod and the ball stood. Note the lens height and the zoom.`,
      say`Film the same club, the same view, and three swings or more.`,
      say`Clothes that show shoulders, hips and knees; the same kind each time.`,
    ],
  },
  {
    title: say`Before you press record`,
    lines: [
      say`Ask for consent; for a child, that of the child and of a parent or guardian. Keep other people out of the picture.`,
      say`Keep the camera and everybody out of reach of club and ball.`,
    ],
  },
];

/** The guide, to be read here or printed and hung up in the bay. */
export function FilmingGuide() {
  const [trouble, setTrouble] = useState<string | null>(null);
  // A message would lie under the dialog.
  const print = (): void => {
    setTrouble(null);
    printOut(<GuideText />, null).catch((error: unknown) => {
      if (error instanceof AppError) setTrouble(error.message);
      else tellTrouble(error);
    });
  };
  return (
    <section aria-label={say`Filming guide`} className={styles.part}>
      <GuideText />
      <div className={styles.actions}>
        {trouble === null ? null : <p role="alert">{trouble}</p>}
        <Button onPress={print}>{say`Print this guide`}</Button>
      </div>
    </section>
  );
}

function GuideText() {
  return (
    <div className={styles.part}>
      <h3>{say`Filming guide`}</h3>
      {PARTS.map(({ title, lines }) => (
        <div key={title}>
          <h4>{title}</h4>
          <ul>
            {lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      ))}
    </div>
  );
}
