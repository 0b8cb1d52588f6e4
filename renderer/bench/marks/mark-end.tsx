import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import { Button } from '../../controls/button.tsx';
import { keepMarks } from '../../swing/state/edit-actions.ts';
import { withoutTarget } from '../../tools/change-marks.ts';
import type { Target } from '../../tools/target.ts';
import styles from '../bench-page.module.css';
import { select } from '../state/bench-actions.ts';

/** Ways to be done with the selected mark, which is kept with these marks. */
export function MarkEnd(props: { readonly clip: BookClip; readonly home: FrameMarks; readonly mark: Target }) {
  const { clip, home, mark } = props;
  const remove = () => {
    keepMarks(clip.id, withoutTarget(home, mark));
    select(null);
  };
  return (
    <div className={styles.row}>
      <Button small look="warning" onPress={remove}>{say`Delete`}</Button>
      <Button small onPress={() => select(null)}>{say`Deselect`}</Button>
    </div>
  );
}
