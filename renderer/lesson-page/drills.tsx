import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import type { Drill } from '../../core/model/lesson-page.ts';
import { Button } from '../controls/button.tsx';
import { Picker } from '../controls/fields.tsx';
import { useStore } from '../shell/state/store.ts';
import { DrillForm } from './drill-form.tsx';
import { Sketch } from './sketch.tsx';
import { dropDrill, keepDrill, library } from './state/library.ts';
import { putDrill, removeDrill } from './state/page-actions.ts';
import styles from './lesson-page.module.css';
import lay from '../controls/lay.module.css';

const NEW = (): Drill => ({
  ...{ id: crypto.randomUUID(), title: '', steps: [], counts: '', caution: '', sketch: [] },
});

/** Drills of the page, out of the coach's own library. */
export function Drills({ drills }: { readonly drills: readonly Drill[] }) {
  const known = useStore(library, (state) => state.drills);
  const [open, setOpen] = useState<Drill | null>(null);
  const offered = known.filter(({ id }) => drills.every((drill) => drill.id !== id));
  return (
    <section className={styles.part} aria-label={say`Drills`}>
      <h3>{say`Drills`}</h3>
      {drills.length === 0 ? null : (
        <ul>
          {drills.map((drill) => (
            <li key={drill.id} className={styles.drill}>
              {drill.sketch.length === 0 ? null : <Sketch title={drill.title} strokes={drill.sketch} />}
              <div>
                <div className={styles.title}>
                  <strong>{drill.title}</strong>
                  <Button
                    small
                    look="quiet"
                    label={say`Change drill: ${drill.title}`}
                    onPress={() => setOpen(drill)}
                  >{say`Change`}</Button>
                  <Button
                    small
                    look="quiet"
                    label={say`Take off the page: ${drill.title}`}
                    onPress={() => removeDrill(drill.id)}
                  >{say`Remove`}</Button>
                </div>
                <ol>
                  {drill.steps.map((step, index) => (
                    <li key={`${String(index)} ${step}`}>{step}</li>
                  ))}
                </ol>
                <p>{drill.counts}</p>
                <p className={lay.soft}>{drill.caution}</p>
                <p className={lay.soft}>{say`If anything hurts, stop and see a doctor or physiotherapist.`}</p>
              </div>
            </li>
          ))}
        </ul>
      )}
      <div className={lay.row}>
        {offered.length === 0 ? null : (
          <Picker
            label={say`Out of your drills`}
            value=""
            none={say`Choose a drill`}
            options={offered.map(({ id, title }) => ({ value: id, label: title }))}
            onChange={(id) => {
              const drill = offered.find((each) => each.id === id);
              if (drill !== undefined) putDrill(drill);
            }}
          />
        )}
        <Button onPress={() => setOpen(NEW())}>{say`Write a drill`}</Button>
      </div>
      {open === null ? null : (
        <DrillForm
          drill={open}
          isKnown={known.some(({ id }) => id === open.id)}
          onKeep={(drill) => {
            keepDrill(drill);
            putDrill(drill);
            setOpen(null);
          }}
          onDrop={() => {
            dropDrill(open.id);
            setOpen(null);
          }}
          onClose={() => setOpen(null)}
        />
      )}
    </section>
  );
}
