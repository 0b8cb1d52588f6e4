import type { BookSwing } from '../../core/model/book.ts';
import { CHILD } from '../../core/measure/words/cautions.ts';
import { say } from '../../core/model/say.ts';
import { Button } from '../controls/button.tsx';
import { AskDialog } from '../controls/dialog.tsx';
import { useStore } from '../shell/state/store.ts';
import { consentAsked, needsConsent } from './state/consent.ts';
import { setConsent } from './state/edit-actions.ts';
import lay from '../controls/lay.module.css';

/** Where something goes out: whether consent is confirmed for the lesson of a child, and how that is changed. */
export function ConsentNote({ swing }: { readonly swing: BookSwing }) {
  if (swing.student.child !== true)
    return (
      <p className={lay.soft}>
        {say`For a child: have the consent of the child and of a parent or guardian before you save or send anything. Mark the student as a child to be reminded.`}
      </p>
    );
  const isMissing = needsConsent(swing);
  return (
    <div className={lay.column} role="group" aria-label={say`Consent`}>
      <p>{isMissing ? CHILD : say`Consent is given for this lesson.`}</p>
      <div className={lay.row}>
        <Button small onPress={() => setConsent(isMissing)}>
          {isMissing ? say`Consent is given` : say`Take consent back`}
        </Button>
      </div>
    </div>
  );
}

/** Asks before anything of a child's lesson is saved or sent, until consent is confirmed for that lesson. */
export function ConsentDialog() {
  const asked = useStore(consentAsked, (state) => state);
  if (asked === null) return null;
  return (
    <AskDialog
      title={say`Is consent given?`}
      what={`${CHILD} ${say`Baybook keeps your answer for this lesson. You can take it back at any time.`}`}
      doIt={say`Consent is given`}
      leave={say`Not now`}
      onDo={() => asked.answer(true)}
      onClose={() => asked.answer(false)}
    />
  );
}
