import { closeBench } from '../../bench/state/bench-actions.ts';
import { closeSwing } from '../../swing/state/swing-actions.ts';
import { app, setApp } from './app-state.ts';
import { attempt } from './messages.ts';
import { placeOf } from './route.ts';
import type { Place } from './route.ts';

/** Takes away what lies over the place one is at, or what lies over that; a place itself stays. */
export function goBack(): void {
  const { route } = app.get();
  if ('under' in route) setApp({ route: route.under });
}

/** Back to an earlier place; what lies over it goes at once, also where leaving a swing takes a moment. */
export function backTo(at: Place['at']): void {
  const place = placeOf(app.get().route);
  setApp({ route: place });
  if (at === 'book' && place.at !== 'book') void attempt(closeSwing);
  else if (at === 'sheet') closeBench();
}

/** Shows the goals' page over all else, or takes it away. */
export function toggleGoals(): void {
  const { route } = app.get();
  if (route.at === 'goals') goBack();
  else setApp({ route: { at: 'goals', under: route } });
}

/** Shows the settings; help gives way to them. */
export function openSettings(): void {
  openDialog('settings');
}

/** Shows help over whatever is under way. */
export function openHelp(): void {
  openDialog('help');
}

function openDialog(at: 'settings' | 'help'): void {
  const { route } = app.get();
  const under = route.at === 'settings' || route.at === 'help' ? route.under : route;
  if (route.at !== at) setApp({ route: { at, under } });
}
