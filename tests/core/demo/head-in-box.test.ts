import { describe, expect, it } from 'vitest';
import { demoScenario } from '../../../core/demo/demo-scenario.ts';
import { headSeen } from '../../../core/demo/head-seen.ts';
import type { Edges } from '../../../core/geometry/box.ts';
import { meaningOf } from '../../../core/measure/words/format.ts';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import type { BoxShape } from '../../../core/model/mark.ts';
import type { MeasuredReading } from '../../../core/model/reading.ts';
import type { MarkedClip } from '../../../core/model/swing.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import { checkpointFrames } from '../../../core/scene/checkpoint-frames.ts';
import { headBoxAt, truthOf } from '../../../core/scene/truth.ts';
import { drawn } from '../../support/drawn.ts';

/**
 * Where head and cap truly are is told by the painted figure: every corner of its surfaces, seen by the camera. The program
 * knows nothing of that; it has a head centre, a head box, and at most a box that was drawn close round the head.
 */
const WATCHED = ['takeaway', 'lead-arm-level', 'top', 'lead-arm-level-down', 'impact', 'through', 'finish'] as const;
const LESSONS = ['then', 'now'] as const;
type Lesson = (typeof LESSONS)[number];
type Drawn = 'nothing' | 'at address' | 'on every frame';

const scenarios = { then: demoScenario('then'), now: demoScenario('now') };

const boxOf = (id: string, role: 'head-box' | 'head', { left, top, right, bottom }: Edges): BoxShape => ({
  ...{ id, kind: 'box', role, x: left, y: top, width: right - left, height: bottom - top },
});

/** How far the box reaches, as a part of its half width and height as the demo draws it: 1, or closer round the head. */
function headBoxOf(lesson: Lesson, size: number): BoxShape {
  const scenario = scenarios[lesson];
  const { x, y, width, height } = headBoxAt(scenario, 'face-on', checkpointFrames(scenario).address);
  const [less, lower] = [((1 - size) * width) / 2, ((1 - size) * height) / 2];
  return {
    ...{
      id: 'box',
      kind: 'box',
      role: 'head-box',
      x: x + less,
      y: y + lower,
      width: size * width,
      height: size * height,
    },
  };
}

function clipOf(lesson: Lesson, boxes: Drawn, size: number): MarkedClip {
  const scenario = scenarios[lesson];
  const frames = checkpointFrames(scenario);
  const names = ['address', ...WATCHED] as const;
  const at = (index: number) => ({ index, pts: index * 100, ticks: 100 });
  return {
    ...{ view: 'face-on', ...scenario.picture, timebase: { num: 1, den: 24_000 } },
    ...{ nominalRate: { num: 240, den: 1 }, captureRate: null },
    checkpoints: Object.fromEntries(names.map((name) => [name, at(frames[name])])),
    marks: names.map((name) => {
      const head = boxOf(`head at ${name}`, 'head', headSeen(scenario, 'face-on', frames[name]));
      const isDrawn = boxes === 'on every frame' || (boxes === 'at address' && name === 'address');
      return {
        frame: at(frames[name]),
        points: {
          'head-centre': { ...truthOf(scenario, 'face-on', frames[name])['head-centre'], hidden: false },
        },
        shapes: [...(name === 'address' ? [headBoxOf(lesson, size)] : []), ...(isDrawn ? [head] : [])],
      };
    }),
  };
}

function readingOf(clip: MarkedClip, id: 'head-box' | 'head-centre-box', checkpoint: Checkpoint): MeasuredReading {
  const found = readSwing({
    ...{ studentFirstName: 'Robin', date: '2026-05-12', club: '7 iron', handedness: 'right', clips: [clip] },
  }).find((reading) => reading.id === id && reading.checkpoint === checkpoint);
  if (found?.state !== 'measured') throw new Error(`${id} at ${checkpoint} is not measured`);
  return found;
}

/** Per cent of the box's width that head and cap truly come beyond it. */
function truthIn(lesson: Lesson, checkpoint: Checkpoint, box: BoxShape): number {
  const head = headSeen(scenarios[lesson], 'face-on', checkpointFrames(scenarios[lesson])[checkpoint]);
  const beyond = Math.max(
    box.x - head.left,
    head.right - (box.x + box.width),
    box.y - head.top,
    head.bottom - (box.y + box.height),
  );
  return (100 * beyond) / box.width;
}

/** The demo's box; and one close enough that head and cap all but touch it. */
const SIZES = [1, 0.9] as const;
const cases = LESSONS.flatMap((lesson) => SIZES.flatMap((size) => WATCHED.map((at) => ({ lesson, size, at }))));

describe.each(['nothing', 'at address', 'on every frame'] as const)('with %s drawn round the head', (boxes) => {
  it.each(drawn(cases, 0, 10))('$lesson, $at, a box of $size: the ± holds where the cap is', ({ lesson, size, at }) => {
    const clip = clipOf(lesson, boxes, size);
    const reading = readingOf(clip, 'head-box', at);
    const truth = truthIn(lesson, at, headBoxOf(lesson, size));
    expect(reading.interval[0]).toBeLessThanOrEqual(truth);
    expect(reading.interval[1]).toBeGreaterThanOrEqual(truth);
    // The middle of the head is another reading, and says so: it lies deep inside where the cap is out.
    expect(readingOf(clip, 'head-centre-box', at).value).toBeLessThan(truth);
    // Never said to be inside where a part of it is outside, nor the other way round.
    if (truth > 0) expect(meaningOf(reading)).not.toContain('inside the box by');
    if (truth < 0) expect(meaningOf(reading)).not.toContain('outside the box by');
  });
});
