import { useState } from 'react';
import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import { MOST_TEXT, type FrameMarks, type TextShape } from '../../../core/model/mark.ts';
import { FIRST_WORDS } from '../../../core/shapes/text.ts';
import { keepMarks } from '../../swing/state/edit-actions.ts';
import { withWords } from '../../tools/change-marks.ts';
import { Button } from '../../controls/button.tsx';
import { TextEntry } from '../../controls/fields.tsx';
import styles from '../bench-page.module.css';

interface TextWordsProps {
  readonly clip: BookClip;
  readonly marks: FrameMarks;
  readonly shape: TextShape;
}

/** What a text on the picture says; kept by Enter or by its button. */
export function TextWords({ clip, marks, shape }: TextWordsProps) {
  const isNew = shape.words === FIRST_WORDS;
  const [typed, setTyped] = useState(isNew ? '' : shape.words);
  const words = typed.trim().slice(0, MOST_TEXT);
  return (
    <form
      className={styles.row}
      onSubmit={(event) => {
        event.preventDefault();
        if (words !== '' && words !== shape.words) keepMarks(clip.id, withWords(marks, shape.id, words));
      }}
    >
      <TextEntry label={say`Words on the picture`} value={typed} onChange={setTyped} autoFocus={isNew} />
      <Button small type="submit" disabled={words === '' || words === shape.words}>{say`Set words`}</Button>
    </form>
  );
}
