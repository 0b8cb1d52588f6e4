import { useState } from 'react';
import { say } from '../../../core/model/say.ts';
import { said } from '../../controls/said.tsx';
import { TERMS } from '../../../core/measure/words/glossary.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { FrameMarks, GroundLayout } from '../../../core/model/mark.ts';
import { app } from '../../shell/state/app-state.ts';
import { groundScene } from '../state/bench-actions.ts';
import { groundPlan, typeGround } from '../state/ground-plan.ts';
import { useStore } from '../../shell/state/store.ts';
import styles from '../bench-page.module.css';
import lay from '../../controls/lay.module.css';
import { PlaceTable, SizeFields } from './ground-sizes.tsx';
import { LayingSticks } from './laying-sticks.tsx';
import { Button } from '../../controls/button.tsx';
import { Choice } from '../../controls/fields.tsx';
import { nextPlaceWords } from '../tool-words.ts';

export const LAYOUT_LABELS: Readonly<Record<GroundLayout, string>> = {
  mat: say`Mat corners`,
  sticks: say`Two crossed sticks`,
  measured: say`Measured places`,
};
const LAYOUTS: readonly { readonly value: GroundLayout; readonly label: string }[] = [
  { value: 'mat', label: LAYOUT_LABELS.mat },
  { value: 'sticks', label: LAYOUT_LABELS.sticks },
  { value: 'measured', label: LAYOUT_LABELS.measured },
];

const LAYOUT_HINTS: Readonly<Record<GroundLayout, string>> = {
  mat: say`A mat whose sides run along the target line and square to it.`,
  sticks: say`Crossed at right angles at their middles, one of them on the target line.`,
  measured: say`Four places or more, measured with a tape from one and the same place. Away from the target or ball: minus.`,
};

/** What lies on the ground, which of its places comes next, and how far the coach has come. */
export function GroundPanel({ clip, marks }: { readonly clip: BookClip; readonly marks: FrameMarks }) {
  const typed = useStore(groundPlan, (state) => state);
  const clicked = useStore(app, ({ bench }) => {
    const tool = bench?.tool;
    return tool?.tool === 'ground' && tool.name !== 'idle' ? tool.places.length : 0;
  });
  const [helps, setHelps] = useState(false);
  const { layout, plan } = typed;
  const { shape, home } = groundScene(clip, marks);
  return (
    <section className={styles.card} aria-label={say`Ground marks`}>
      <h2 title={TERMS.groundMarks.means}>{say`Ground marks`}</h2>
      <Choice
        label={say`What lies there`}
        value={layout}
        options={LAYOUTS}
        onChange={(next) => typeGround({ layout: next })}
      />
      <p className={lay.soft}>{LAYOUT_HINTS[layout]}</p>
      {layout === 'measured' ? (
        <>
          <PlaceTable rows={typed.measured} onChange={(measured) => typeGround({ measured })} />
          <div className={styles.row}>
            <Button
              small
              onPress={() => typeGround({ measured: [...typed.measured, { target: '', ball: '' }] })}
            >{say`One more place`}</Button>
          </div>
        </>
      ) : (
        <SizeFields layout={layout} size={typed[layout]} onChange={(size) => typeGround({ [layout]: size })} />
      )}
      <p role="status">
        {plan === null ? (
          say`Type the sizes first; the places are clicked after that.`
        ) : (
          <>{said`Click ${<strong>{nextPlaceWords(plan, clicked)}</strong>}. ${clicked} of ${plan.places.length} clicked.`}</>
        )}
      </p>
      {shape === null ? null : (
        <p
          className={lay.soft}
        >{said`The clip has ground marks, drawn on frame ${home.frame.index}. New ones take their place once all are clicked.`}</p>
      )}
      <div className={styles.row}>
        <Button small onPress={() => setHelps(true)}>{say`How to lay the sticks`}</Button>
      </div>
      {helps ? <LayingSticks onClose={() => setHelps(false)} /> : null}
    </section>
  );
}
