import type { BookSwing } from '../../core/model/book.ts';
import { app } from '../shell/state/app-state.ts';
import { feed } from './feed.ts';

/** Tells the frame server which frames of the open swings have a name, now and whenever that changes. Returns how to stop. */
export function followNamed(): () => void {
  let known: readonly (BookSwing | null)[] = [];
  const follow = (): void => {
    const { swing, then } = app.get();
    if (known[0] === swing && known[1] === then) return;
    known = [swing, then];
    for (const { id, checkpoints } of known.flatMap((open) => open?.clips ?? []))
      feed.name(
        id,
        Object.values(checkpoints).map(({ index }) => index),
      );
  };
  follow();
  return app.subscribe(follow);
}
