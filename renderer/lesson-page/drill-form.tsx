import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import type { Drill } from '../../core/model/lesson-page.ts';
import { Button } from '../controls/button.tsx';
import { FormDialog } from '../controls/dialog.tsx';
import { TextEntry } from '../controls/fields.tsx';
import { SketchPad } from './sketch.tsx';

const MOST_NAME = 80;
const MOST_TEXT = 1000;
const MOST_STEPS = 50;

/** A drill of the coach's own library, which goes on the page as it is kept. */
export function DrillForm(props: {
  readonly drill: Drill;
  readonly isKnown: boolean;
  readonly onKeep: (drill: Drill) => void;
  readonly onDrop: () => void;
  readonly onClose: () => void;
}) {
  const [drill, setDrill] = useState(props.drill);
  const [steps, setSteps] = useState(props.drill.steps.join('\n'));
  const set = (part: Partial<Drill>) => setDrill({ ...drill, ...part });
  const keep = (): void => {
    const lines = steps.split('\n').map((step) => step.trim());
    const kept = lines.filter((step) => step !== '').slice(0, MOST_STEPS);
    props.onKeep({ ...drill, title: drill.title.trim(), steps: kept });
  };
  return (
    <FormDialog
      title={props.isKnown ? say`Change the drill` : say`A drill of yours`}
      doIt={say`Keep and put on the page`}
      disabled={drill.title.trim() === ''}
      onDo={keep}
      onClose={props.onClose}
    >
      <TextEntry
        label={say`Title`}
        required
        autoFocus
        value={drill.title}
        maxLength={MOST_NAME}
        onChange={(title) => set({ title })}
      />
      <TextEntry label={say`Steps, one a line`} long value={steps} maxLength={MOST_TEXT} onChange={setSteps} />
      <TextEntry
        label={say`How many, how often`}
        value={drill.counts}
        maxLength={MOST_TEXT}
        onChange={(counts) => set({ counts })}
      />
      <TextEntry
        label={say`What to mind with it`}
        hint={say`The usual cautions stand beside it in any case.`}
        value={drill.caution}
        maxLength={MOST_TEXT}
        onChange={(caution) => set({ caution })}
      />
      <SketchPad strokes={drill.sketch} onChange={(sketch) => set({ sketch })} />
      {props.isKnown ? <Button look="warning" onPress={props.onDrop}>{say`Take it out of your drills`}</Button> : null}
    </FormDialog>
  );
}
