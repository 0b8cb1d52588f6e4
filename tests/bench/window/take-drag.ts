import { BODY_POINTS } from '../../../core/model/body-points.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { FrameRef } from '../../../core/model/frame.ts';
import type { FrameMarks, PlacedPoint, Shape } from '../../../core/model/mark.ts';
import { ask } from '../../e2e/page-hands.ts';
import { writeMarks } from '../../e2e/write-edits.ts';
import { ROWS } from '../bars.ts';
import type { ClipName } from '../bars.ts';
import type { BenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import { jumpTo } from './plans.ts';
import { closeSwing, openClip, openSwing } from './session.ts';
import type { Session } from './session.ts';

const VIEW = 'face-on';
/** Anywhere but at an end. */
const FRAME = 30;

/** A body point is dragged on a frame that is full of marks. */
export async function takeDrag(run: BenchRun, session: Session, name: ClipName, clip: BenchClip): Promise<void> {
  run.say(`${name}: dragging among many marks ...`);
  const { page } = session;
  const frame = { index: FRAME, pts: clip.index.frames[FRAME]?.pts ?? 0 };
  const students = await ask(page, 'student/list', null);
  const [swing] = students[0]?.lessons[0]?.swings ?? [];
  const swingId = swing?.swing.id ?? '';
  const id = swing?.clips.find(({ view }) => view === VIEW)?.id ?? '';
  await writeMarks(page, { id, swingId }, manyMarks(frame, clip.shown));
  // The window learns of what was written past it when the swing is opened anew.
  await closeSwing(session);
  await openSwing(session, 'Swing 1');
  await openClip(session, clip, VIEW);
  await page.evaluate((orders) => window.bench.carryOut(orders), [{ ...jumpTo(FRAME), want: 'sharp' as const }]);
  const box = await page.locator('[role="application"] canvas[data-shown]').boundingBox();
  const data = await page
    .locator('[role="application"] canvas[data-shown]')
    .evaluate((canvas) => (canvas instanceof HTMLCanvasElement ? { ...canvas.dataset } : {}));
  const ball = placeOf('ball', clip.shown);
  const at = (pixels: number, offset: string | undefined, start: number): number =>
    start + pixels * Number(data['zoom']) + Number(offset);
  const from = { x: at(ball.x, data['left'], box?.x ?? 0), y: at(ball.y, data['top'], box?.y ?? 0) };
  const dragged = await page.evaluate(({ place, moves }) => window.bench.drag(place, moves), {
    place: from,
    moves: run.quick ? 60 : 180,
  });
  // Nothing was dragged if the point stands where it stood.
  const after = await ask(page, 'swing/open', { id: swingId });
  const kept = after.clips.flatMap(({ marks }) => marks).find((marks) => marks.frame.index === FRAME)?.points.ball;
  const moved = kept !== undefined && (kept.x !== ball.x || kept.y !== ball.y);
  if (!moved) run.say(`${name}: nothing was dragged`);
  const { large } = ROWS.drag;
  run.enter(large.rate, name, moved ? (1000 * dragged.moves) / dragged.elapsed : null);
  run.enter(large.renders, name, moved ? dragged.renders / dragged.moves : null);
  run.enter(large.slowest, name, moved ? dragged.slowest : null);
}

/** All 20 body points, apart from one another, and 12 shapes. */
function manyMarks(frame: FrameRef, size: { readonly width: number; readonly height: number }): FrameMarks {
  const points: Partial<Record<BodyPointId, PlacedPoint>> = {};
  for (const point of BODY_POINTS) points[point] = { ...placeOf(point, size), hidden: false };
  const at = (x: number, y: number) => ({ x: x * size.width, y: y * size.height });
  const shapes = Array.from({ length: 12 }, (_, place): Shape => {
    const id = `00000000-0000-4000-8000-${String(place).padStart(12, '0')}`;
    const [x, y] = [0.06 + 0.07 * place, 0.2 + 0.04 * place];
    if (place % 4 === 0) return { kind: 'line', id, a: at(x, y), b: at(x + 0.1, 0.9), role: null, lengthMm: null };
    if (place % 4 === 1) return { kind: 'angle', id, vertex: at(x, y), a: at(x + 0.1, y), b: at(x, y + 0.2) };
    if (place % 4 === 2) return { kind: 'box', id, ...at(x, y), width: 300, height: 260, role: null };
    return { kind: 'circle', id, centre: at(x, y), radius: 150 };
  });
  return { frame, points, shapes };
}

function placeOf(point: BodyPointId, { width, height }: { readonly width: number; readonly height: number }) {
  const place = BODY_POINTS.indexOf(point);
  return { x: (0.12 + 0.18 * (place % 5)) * width, y: (0.15 + 0.2 * Math.floor(place / 5)) * height };
}
