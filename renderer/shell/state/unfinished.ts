import { say } from '../../../core/model/say.ts';
import { progressOf } from '../../tools/repeat-tool.ts';
import { stageOf } from '../../repeat/state/repeat-check.ts';
import { app } from './app-state.ts';

/** What a coach is in the middle of and has not handed in: no change yet, but hands have worked on it. */

const forms = new Set<{ readonly name: string }>();

/** A form that something was typed or chosen in; returns how to say that it is closed. */
export function holdForm(name: string): () => void {
  const form = { name };
  forms.add(form);
  return () => void forms.delete(form);
}

/** The names of all that would be lost if the window closed now. */
export function unfinished(): readonly string[] {
  const stage = stageOf(app.get());
  const isPlacing = stage?.name === 'placing' && progressOf(stage.run).done > 0;
  return [...[...forms].map(({ name }) => name), ...(isPlacing || stage?.name === 'result' ? [say`Repeat check`] : [])];
}
