import { say } from '../../../core/model/say.ts';
import { LIFT_ID, exponentOf, isPlain, pictureLight } from '../state/picture-light.ts';
import { useStore } from '../../shell/state/store.ts';
import styles from './picture-light.module.css';

/** Says so while the picture is not in the clip's own light, and holds what lifts dark parts. */
export function LightNote() {
  const look = useStore(pictureLight, (state) => state);
  if (isPlain(look)) return null;
  const exponent = exponentOf(look.lift);
  return (
    <>
      <svg className={styles.filter} aria-hidden="true">
        <filter id={LIFT_ID} colorInterpolationFilters="sRGB">
          <feComponentTransfer>
            <feFuncR type="gamma" exponent={exponent} />
            <feFuncG type="gamma" exponent={exponent} />
            <feFuncB type="gamma" exponent={exponent} />
          </feComponentTransfer>
        </filter>
      </svg>
      <span className={styles.told}>{say`Brightness changed for the eye only`}</span>
    </>
  );
}
