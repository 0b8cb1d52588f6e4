import type { CSSProperties } from 'react';
import { say } from '../../../core/model/say.ts';
import { SHAPE_COLOURS, SHAPE_THICKNESSES, type ShapeLook } from '../../../core/model/mark.ts';
import { SHAPE_INKS, STYLE_COLOURS } from '../../../core/painting/styles.ts';
import { lookOf } from '../../tools/change-marks.ts';
import { Button } from '../../controls/button.tsx';
import { Check } from '../../controls/fields.tsx';
import styles from './shape-look.module.css';

const COLOURS = [undefined, ...SHAPE_COLOURS] as const;
const [THIN, THICK] = SHAPE_THICKNESSES;
const THICKNESSES = [THIN, undefined, THICK] as const;
/** Of the sample on its button, CSS pixels. */
const SAMPLE = { thin: 1.5, middle: 3, thick: 5 } as const;

/** How a shape looks: colour, thickness, and whether its number stands beside it. */
export function ShapeLookChoice(props: {
  readonly look: ShapeLook;
  /** Whether it has a number that could stand beside it. */
  readonly hasNumber: boolean;
  readonly onChange: (look: ShapeLook) => void;
}) {
  const { look, hasNumber, onChange } = props;
  return (
    <div className={styles.look}>
      <div className={styles.row} role="group" aria-label={say`Colour`}>
        {COLOURS.map((colour) => (
          <Button
            key={colour ?? 'usual'}
            small
            look={look.colour === colour ? 'plain' : 'quiet'}
            label={colour === undefined ? say`Usual colour: that of then or now` : colour}
            pressed={look.colour === colour}
            onPress={() => onChange(lookOf({ ...look, colour }))}
          >
            <span
              className={colour === undefined ? styles.usual : styles.swatch}
              style={{ '--ink': colour === undefined ? STYLE_COLOURS.now : SHAPE_INKS[colour] } as CSSProperties}
            />
          </Button>
        ))}
      </div>
      <div className={styles.row} role="group" aria-label={say`Thickness`}>
        {THICKNESSES.map((thickness) => (
          <Button
            key={thickness ?? 'middle'}
            small
            look={look.thickness === thickness ? 'plain' : 'quiet'}
            label={say`${thickness ?? 'middle'} line`}
            pressed={look.thickness === thickness}
            onPress={() => onChange(lookOf({ ...look, thickness }))}
          >
            <span className={styles.sample} style={{ height: SAMPLE[thickness ?? 'middle'] }} />
          </Button>
        ))}
      </div>
      {hasNumber ? (
        <Check
          checked={look.unlabelled !== true}
          onChange={(on) => onChange(lookOf({ ...look, unlabelled: on ? undefined : true }))}
        >{say`Number beside it`}</Check>
      ) : null}
    </div>
  );
}
