import { say } from '../../core/model/say.ts';
import type { LaidOver } from '../../core/compare/lay-over.ts';
import { zoomByKey } from '../canvas/bench-view.ts';
import { Button } from '../controls/button.tsx';
import { keyTitle } from '../shell/key-words.ts';
import { useStore } from '../shell/state/store.ts';
import styles from './comparison-page.module.css';
import { fitBoth } from './fit-both.ts';
import { laidWords } from './laid-words.ts';
import { flick, laying, showThen } from './state/comparing.ts';

/** How much of then is seen over now; what the overlay goes by is said where that is less than ball and feet. */
export function Fade({ laid }: { readonly laid: LaidOver }) {
  const { then, flicked } = useStore(laying, (state) => state);
  return (
    <div className={styles.onPicture} data-side="left" role="group" aria-label={say`Then over now`}>
      <label className={styles.fade} title={`${keyTitle('more-then')} ${keyTitle('less-then')}`}>
        {say`Now`}
        <input
          type="range"
          aria-label={say`How much of then`}
          aria-valuetext={say`${String(Math.round(100 * then))} % then`}
          min={0}
          max={100}
          value={Math.round(100 * then)}
          onChange={(event) => showThen(Number(event.target.value) / 100)}
        />
        {say`Then`}
      </label>
      <button
        type="button"
        className={styles.choice}
        aria-pressed={flicked}
        title={keyTitle('flick')}
        onClick={flick}
      >{say`Flick`}</button>
      {laid.by === 'ground' && !laid.mirrored ? null : <span className={styles.note}>{laidWords(laid)}</span>}
    </div>
  );
}

export function Zoom() {
  return (
    <div className={styles.onPicture} data-side="right" role="group" aria-label={say`Zoom`}>
      <Button small look="quiet" label={say`Zoom out. ${keyTitle('zoom-out')}`} onPress={() => zoomByKey(-1)}>
        −
      </Button>
      <Button small look="quiet" label={say`Zoom in. ${keyTitle('zoom-in')}`} onPress={() => zoomByKey(1)}>
        +
      </Button>
      <Button small look="quiet" label={say`Fit the player, or the whole picture`} onPress={fitBoth}>{say`Fit`}</Button>
    </div>
  );
}
