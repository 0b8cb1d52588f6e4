import { lowered, say } from '../../core/model/say.ts';
import type { BookClip } from '../../core/model/book.ts';
import { CHECKPOINTS, VIEW_LABELS } from '../../core/model/words.ts';
import { app } from '../shell/state/app-state.ts';
import { openBench } from './state/bench-actions.ts';
import { useStore } from '../shell/state/store.ts';
import { Button } from '../controls/button.tsx';
import { CompanionChoice } from './surface/companion-choice.tsx';

/** Beside the name of the view on the bench: the ways to the other one, and to both. */
export function ViewSwitch({ clip }: { readonly clip: BookClip }) {
  const clips = useStore(app, (state) => state.swing?.clips);
  const others = (clips ?? []).filter((other) => other.id !== clip.id);
  return (
    <>
      {others.map((other) => (
        <Button
          key={other.id}
          small
          look="quiet"
          label={say`Go to ${lowered(VIEW_LABELS[other.view])}`}
          onPress={() => openOther(other, clip)}
        >
          {VIEW_LABELS[other.view]}
        </Button>
      ))}
      <CompanionChoice />
    </>
  );
}

/** Opens the other view at the same checkpoint, where both have one. */
function openOther(other: BookClip, clip: BookClip): void {
  const at = app.get().bench?.index;
  const here = CHECKPOINTS.find((checkpoint) => clip.checkpoints[checkpoint]?.index === at);
  openBench(other.id, here === undefined ? 0 : (other.checkpoints[here]?.index ?? 0));
}
