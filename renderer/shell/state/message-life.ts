import { app } from './app-state.ts';
import type { AppState, Message } from './app-state.ts';
import { dismissMessage } from './messages.ts';
import { pageOf } from './route.ts';

/** Long enough to turn to it from the picture, ms; then as long as slow reading takes. */
const TO_LOOK_MS = 5000;
const PER_LETTER_MS = 90;
/** To decide whether the step that is offered is wanted, ms. */
const TO_DECIDE_MS = 15_000;

/**
 * How long a message stays when nobody rests on it, ms; null: until somebody answers it. What went wrong, and a step that
 * is offered nowhere else, waits for the coach.
 */
export function lifeOf({ kind, text, nextStep }: Message): number | null {
  if (kind === 'trouble' || nextStep?.waits === true) return null;
  return TO_LOOK_MS + (nextStep === null ? 0 : TO_DECIDE_MS) + PER_LETTER_MS * text.length;
}

/** What the window is filled with; each swing has a sheet and a bench of its own. */
export function screenOf({ route, swing }: Pick<AppState, 'route' | 'swing'>): string {
  const { at } = pageOf(route);
  return at === 'sheet' || at === 'bench' || at === 'comparison' ? `${at} ${swing?.swing.id ?? ''}` : at;
}

/**
 * What was done on a screen is no news on the next one: such a message goes with its screen. A step that is offered nowhere
 * else stays for as long as its swing is open. One that is told on the way belongs to where the way leads, and trouble
 * stays. Returns how to stop.
 */
export function followScreens(): () => void {
  const seen = (): { screen: string; swing: string | null; done: Message | null } => {
    const { swing, messages } = app.get();
    const done = messages.find(({ kind }) => kind === 'done') ?? null;
    return { screen: screenOf(app.get()), swing: swing?.swing.id ?? null, done };
  };
  let last = seen();
  const look = (): void => {
    const now = seen();
    const before = last;
    last = now;
    if (now.done === null || now.done !== before.done) return;
    const waits = now.done.nextStep?.waits === true;
    if (waits ? now.swing !== before.swing : now.screen !== before.screen) dismissMessage(now.done);
  };
  return app.subscribe(look);
}
