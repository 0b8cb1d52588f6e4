import { useEffect } from 'react';
import { centre, fit, oneToOne, reach, zoomByKey } from '../canvas/bench-view.ts';
import { isShown } from '../canvas/shown-picture.ts';
import { app } from '../state/app.ts';
import { chooseTool, goTo, goToNamed, sendToTool, stepBy } from '../state/bench-actions.ts';
import { redo, undo } from '../state/edit-actions.ts';
import { TOOLS } from '../tools/tool.ts';
import { TOOL_KEYS } from './tool-words.ts';

/** Where keys belong to what has the focus: typing, choosing from a list, a dialog. */
export const TYPING = 'input:not([type="range"]), textarea, select, [role="dialog"]';
/** These press a focused button, and open what is folded. */
const PRESSING = new Set(['Enter', ' ']);
const STEPPING = new Set(['ArrowLeft', 'ArrowRight']);

/** Keys of the bench. The tool in hand has first say; what it has no use for steps frames or takes another tool. */
export function useBenchKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const isIn = (kind: string) => event.target instanceof Element && event.target.closest(kind) !== null;
      if (event.defaultPrevented || isIn(TYPING)) return;
      if (PRESSING.has(event.key) && isIn('button, summary, a')) return;
      // A held key waits for the picture of each frame: a run passes none over, it only gets slower.
      const { bench } = app.get();
      if (event.repeat && STEPPING.has(event.key) && bench !== null && !isShown(bench.clipId, bench.index)) {
        event.preventDefault();
        return;
      }
      if (carryOut(event)) event.preventDefault();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}

/** Answers whether the key meant something. */
function carryOut(event: KeyboardEvent): boolean {
  const { key, shiftKey } = event;
  if (event.ctrlKey || event.metaKey) {
    if (event.altKey || key.toLowerCase() !== 'z') return false;
    (shiftKey ? redo : undo)();
    return true;
  }
  if (event.altKey) return false;
  if (key === 'Escape') return cancel();
  if (sendToTool({ type: 'key', key, shift: shiftKey }, reach(), centre())) return true;
  const action = shiftKey ? SHIFTED[key] : PLAIN[key];
  if (action === undefined) return false;
  action();
  return true;
}

/** Esc ends the gesture; then lets the selection go; then puts the tool away. */
function cancel(): boolean {
  if (sendToTool({ type: 'cancel' }, reach(), centre())) return true;
  if (app.get().bench?.tool.tool === 'move') return false;
  chooseTool('move');
  return true;
}

function toEnd(): void {
  goTo(Number.MAX_SAFE_INTEGER);
}

const ZOOMING = {
  '+': () => zoomByKey(1),
  '=': () => zoomByKey(1),
  '-': () => zoomByKey(-1),
  _: () => zoomByKey(-1),
};

const PLAIN: Readonly<Record<string, () => void>> = {
  ...ZOOMING,
  ArrowLeft: () => stepBy(-1),
  ArrowRight: () => stepBy(1),
  Home: () => goTo(0),
  End: toEnd,
  PageUp: () => goToNamed(-1),
  PageDown: () => goToNamed(1),
  f: fit,
  '1': oneToOne,
  ...Object.fromEntries(TOOLS.map((tool) => [TOOL_KEYS[tool], () => chooseTool(tool)])),
};

const SHIFTED: Readonly<Record<string, () => void>> = {
  ...ZOOMING,
  ArrowLeft: () => stepBy(-10),
  ArrowRight: () => stepBy(10),
};
