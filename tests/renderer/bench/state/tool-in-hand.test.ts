// @vitest-environment jsdom
import { beforeEach, expect, test } from 'vitest';
import { chooseTool, goTo, keptMarks, openBench, sendToTool } from '../../../../renderer/bench/state/bench-actions.ts';
import { rememberLook } from '../../../../renderer/bench/state/drawing-look.ts';
import { app, setApp, setBench } from '../../../../renderer/shell/state/app-state.ts';
import { emptyHistory } from '../../../../renderer/swing/state/history.ts';
import { WRITTEN, controlProgram } from '../../controlled-program.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';

/** A tool stays in hand until it is put away, and what it draws next looks as what was drawn last. */

beforeEach(() => {
  controlProgram(() => Promise.resolve({ ok: true, value: WRITTEN }));
  const swing = swingOf('a', [clipOf('x')]);
  setApp({ swing, then: null, indexes: { x: indexOf(4) }, bench: null, history: emptyHistory() });
  openBench('x', 1);
  setBench({ picture: 'exact' });
  rememberLook({});
  chooseTool('line');
});

const tool = () => app.get().bench?.tool;
const shapes = () => keptMarks(app.get())?.shapes ?? [];
function drag(from: readonly [number, number], to: readonly [number, number]): void {
  for (const [type, [x, y]] of [
    ['down', from],
    ['move', to],
    ['up', to],
  ] as const)
    sendToTool({ type, at: { x, y } }, 8, { x: 50, y: 25 });
}

test('two lines are drawn one after the other, and a handle of the last one moves in between', () => {
  drag([0, 0], [40, 0]);
  expect(tool()).toEqual({ tool: 'line', name: 'idle' });
  drag([40, 0], [50, 20]);
  expect(shapes()).toMatchObject([{ b: { x: 50, y: 20 } }]);
  expect(tool()).toEqual({ tool: 'line', name: 'idle' });
  drag([0, 40], [60, 40]);
  expect(shapes()).toHaveLength(2);
});

test('it is the line again also where the handle in hand is left by a step to another frame', () => {
  drag([0, 0], [40, 0]);
  sendToTool({ type: 'down', at: { x: 40, y: 0 } }, 8, { x: 50, y: 25 });
  expect(tool()).toMatchObject({ tool: 'move', name: 'holding' });
  goTo(2);
  expect([tool(), app.get().bench?.resumes]).toEqual([{ tool: 'line', name: 'idle' }, null]);
});

test('the next shape has the look that was chosen last; what is only measured by has none', () => {
  rememberLook({ colour: 'lime', thickness: 'thin', unlabelled: true });
  drag([0, 0], [40, 0]);
  chooseTool('arrow');
  drag([0, 40], [40, 40]);
  expect(shapes()).toMatchObject([
    { kind: 'line', colour: 'lime', thickness: 'thin', unlabelled: true },
    { kind: 'arrow', colour: 'lime', thickness: 'thin' },
  ]);
  expect(shapes()[1]).not.toHaveProperty('unlabelled');
});
