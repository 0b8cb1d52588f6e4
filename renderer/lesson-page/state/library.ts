import { say } from '../../../core/model/say.ts';
import { USUAL_LIBRARY, type CoachLibrary, type Drill, type LetterTemplate } from '../../../core/model/lesson-page.ts';
import { ask } from '../../api.ts';
import { tellDone, tellTrouble } from '../../shell/state/messages.ts';
import { createStore } from '../../shell/state/store.ts';

/** The coach's drills and letter, as far as they were read. */
export const library = createStore<CoachLibrary>(USUAL_LIBRARY);

export async function readLibrary(): Promise<void> {
  const read = await ask('library/read', null);
  library.update(() => read);
}

/** Writes one after the other, the latest last. */
let writing: Promise<unknown> = Promise.resolve();

function change(next: CoachLibrary): void {
  library.update(() => next);
  writing = writing
    .then(() => ask('library/write', next))
    .catch((error: unknown) => {
      tellTrouble(error);
      readLibrary().catch(tellTrouble);
    });
}

/** Keeps a drill, a new one or one that was changed. */
export function keepDrill(drill: Drill): void {
  const { drills, ...rest } = library.get();
  const isKnown = drills.some(({ id }) => id === drill.id);
  change({
    ...rest,
    drills: isKnown ? drills.map((each) => (each.id === drill.id ? drill : each)) : [...drills, drill],
  });
}

/** Takes a drill out of the library; pages that have it keep their copy. */
export function dropDrill(id: string): void {
  const before = library.get();
  const drill = before.drills.find((each) => each.id === id);
  if (drill === undefined) return;
  change({ ...before, drills: before.drills.filter((each) => each.id !== id) });
  tellDone(say`Took ${drill.title} out of your drills.`, {
    label: say`Put it back`,
    run: () => keepDrill(drill),
    waits: true,
  });
}

export function changeLetter(part: Partial<LetterTemplate>): void {
  const before = library.get();
  change({ ...before, letter: { ...before.letter, ...part } });
}
