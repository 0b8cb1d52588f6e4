import { say } from '../../core/model/say.ts';
import { HANDEDNESS, HANDEDNESS_LABELS } from '../../core/model/words.ts';
import type { Handedness } from '../../core/model/words.ts';
import { Choice } from '../controls/fields.tsx';

const OPTIONS = HANDEDNESS.map((value) => ({ value, label: HANDEDNESS_LABELS[value] }));

/** Which hand somebody plays. */
export function PlaysChoice(props: { readonly value: Handedness; readonly onChange: (value: Handedness) => void }) {
  return <Choice label={say`Plays`} options={OPTIONS} {...props} />;
}
