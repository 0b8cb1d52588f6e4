import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import type { ReadingId } from '../../core/model/reading.ts';
import { READING_OPTIONS } from './goals-words.ts';
import { Button } from '../controls/button.tsx';
import { Picker } from '../controls/fields.tsx';
import styles from './goals-page.module.css';

/** Chooses a reading and adds something for it. */
export function AddByReading(props: {
  readonly what: string;
  readonly options?: readonly { readonly value: ReadingId; readonly label: string }[];
  readonly onAdd: (reading: ReadingId) => void;
}) {
  const { options = READING_OPTIONS } = props;
  const [chosen, setChosen] = useState<ReadingId | null>(null);
  const reading = options.find(({ value }) => value === chosen)?.value ?? options[0]?.value;
  if (reading === undefined) return null;
  return (
    <div className={styles.add}>
      <Picker label={say`Reading`} value={reading} options={options} onChange={setChosen} />
      <Button onPress={() => props.onAdd(reading)}>{props.what}</Button>
    </div>
  );
}
