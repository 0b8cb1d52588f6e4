import { beginTake } from '../../../../core/talk-file/take-recorder.ts';

/**
 * Records a take into the folder `process.argv[2]` until it is killed, a tenth of a second at a time: samples that count up,
 * and a step. How many milliseconds are recorded is printed once they are handed over, and not before.
 */
const TENTH = 4800;
const recorder = await beginTake(process.argv[2] ?? '', true);
await recorder.events([
  {
    at: 0,
    kind: 'show',
    panes: [{ which: 'now', view: 'face-on', frame: { index: 0, pts: 0 }, part: null }],
  },
]);
for (let tenth = 0; ; tenth++) {
  const at = tenth * 100;
  await recorder.events([{ at, kind: 'frame', pane: 0, frame: { index: tenth, pts: tenth } }]);
  await recorder.sound(Int16Array.from({ length: TENTH }, (_, sample) => (tenth * TENTH + sample) % 30_000));
  process.stdout.write(`${String(at + 100)}\n`);
}
