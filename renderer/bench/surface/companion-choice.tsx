import { lowered, say } from '../../../core/model/say.ts';
import { VIEW_LABELS } from '../../../core/model/words.ts';
import { app } from '../../shell/state/app-state.ts';
import { chooseCompanion, companion, companionClip, toggleBothViews } from '../state/companion.ts';
import { useStore } from '../../shell/state/store.ts';
import styles from './companion.module.css';
import { Button } from '../../controls/button.tsx';

/** What stands beside the frame on the bench: nothing, the swing's other view, or the same view of the earlier swing. */
export function CompanionChoice() {
  const choice = useStore(companion, (state) => state.choice);
  const other = useStore(app, (state) => companionClip(state, 'other'));
  const then = useStore(app, (state) => companionClip(state, 'then'));
  if (other === null && then === null) return null;
  return (
    <div className={styles.choice} role="group" aria-label={say`Beside this picture`}>
      {other === null ? null : (
        <Button
          small
          look={choice === 'other' ? 'main' : 'quiet'}
          pressed={choice === 'other'}
          label={say`Both views: ${lowered(VIEW_LABELS[other.view])} beside this`}
          onPress={toggleBothViews}
        >{say`Both views`}</Button>
      )}
      {then === null ? null : (
        <Button
          small
          look={choice === 'then' ? 'main' : 'quiet'}
          pressed={choice === 'then'}
          label={say`Then: the earlier swing beside this`}
          onPress={() => chooseCompanion(choice === 'then' ? 'none' : 'then')}
        >{say`Then`}</Button>
      )}
    </div>
  );
}
