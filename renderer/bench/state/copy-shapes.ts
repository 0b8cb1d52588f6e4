import { say, lowered } from '../../../core/model/say.ts';
import { SAME_CLIP, carriedShape, carryingBetween } from '../../../core/compare/carry-shapes.ts';
import type { Carrying } from '../../../core/compare/carry-shapes.ts';
import type { BookClip, BookSwing } from '../../../core/model/book.ts';
import type { FrameRef } from '../../../core/model/frame.ts';
import type { Shape } from '../../../core/model/mark.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, VIEW_LABELS } from '../../../core/model/words.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import { withCopies } from '../../tools/add-copies.ts';
import { keepMarks } from '../../swing/state/edit-actions.ts';
import { tellDone } from '../../shell/state/messages.ts';
import { marksOn } from '../../swing/state/swing-edit.ts';

/** A named frame that shapes can be copied from or to. */
export interface ShapePlace {
  /** Unique among the places of a list. */
  readonly id: string;
  /** e.g. "Address", "Face on, top", "Then, top". */
  readonly label: string;
  readonly clip: BookClip;
  readonly frame: FrameRef;
  readonly carrying: Carrying;
}

interface Here {
  readonly swing: BookSwing;
  readonly then: BookSwing | null;
  readonly clip: BookClip;
  readonly frame: FrameRef;
}

/** Frames with shapes that can be copied to this one: of this clip, of the other view, and of then at the same checkpoint. */
export function shapeSources(here: Here): readonly ShapePlace[] {
  const { swing, then, clip } = here;
  const places = [...ownPlaces(here), ...otherViews(here, (other) => carryingOf(swing, other, swing, clip))];
  if (then !== null)
    for (const other of then.clips.filter(({ view }) => view === clip.view))
      for (const checkpoint of namesOf(here))
        places.push(...placeAt(other, checkpoint, say`Then, `, carryingOf(then, other, swing, clip)));
  return places.filter((place) => copyable(place, place.carrying).length > 0);
}

/** Frames of the open swing to which this shape, or without one some shape of this frame, can be copied. */
export function shapeTargets(here: Here, shape: Shape | null): readonly ShapePlace[] {
  const { swing, clip } = here;
  const places = [...ownPlaces(here), ...otherViews(here, (other) => carryingOf(swing, clip, swing, other))];
  return places.filter(({ carrying }) =>
    shape === null ? copyable(here, carrying).length > 0 : isCopyable(shape, carrying),
  );
}

/** Where this frame's checkpoint would be looked for and is not named, e.g. "face on, top". */
export function placesNotNamed(here: Here): readonly string[] {
  const { swing, then, clip } = here;
  const others = swing.clips
    .filter(({ id }) => id !== clip.id)
    .map((other) => [VIEW_LABELS[other.view], other] as const);
  const before = then?.clips.filter(({ view }) => view === clip.view).map((other) => [say`then`, other] as const) ?? [];
  return [...others, ...before].flatMap(([name, other]) =>
    namesOf(here)
      .filter((checkpoint) => other.checkpoints[checkpoint] === undefined)
      .map((checkpoint) => lowered(`${name}, ${CHECKPOINT_LABELS[checkpoint]}`)),
  );
}

/** Copies all shapes of a source onto a frame of the open swing, as one edit. */
export function copyShapesHere(source: ShapePlace, clip: BookClip, frame: FrameRef): void {
  add(clip, frame, copyable(source, source.carrying), source.carrying, say`from ${source.label}`);
}

/** Copies all shapes of a frame onto another one of the open swing, as one edit. */
export function copyAllShapesTo(from: { readonly clip: BookClip; readonly frame: FrameRef }, target: ShapePlace): void {
  add(target.clip, target.frame, copyable(from, target.carrying), target.carrying, say`to ${target.label}`);
}

/** Copies one shape onto a frame of the open swing. */
export function copyShapeTo(shape: Shape, target: ShapePlace): void {
  add(target.clip, target.frame, [shape], target.carrying, say`to ${target.label}`);
}

function add(clip: BookClip, frame: FrameRef, shapes: readonly Shape[], carrying: Carrying, where: string): void {
  const copies = shapes.flatMap((shape) => carriedShape(shape, carrying, crypto.randomUUID()) ?? []);
  if (copies.length === 0) return;
  const marks = marksOn(clip, frame);
  keepMarks(clip.id, withCopies({ ...marks, frame: { index: frame.index, pts: frame.pts } }, copies));
  const count = copies.length === 1 ? say`1 shape` : say`${String(copies.length)} shapes`;
  tellDone(say`Copied ${count} ${where}${howInWords(carrying)}`);
}

function howInWords({ by, mirrored }: Carrying): string {
  const ways = {
    same: '.',
    ground: say`, lined up on the ball and feet.`,
    size: say`, by the size of the picture: ball and feet are not placed in both.`,
    view: say`, by the size of the picture.`,
  } as const;
  return mirrored ? say`, mirrored${ways[by]}` : ways[by];
}

function copyable(
  { clip, frame }: { readonly clip: BookClip; readonly frame: FrameRef },
  carrying: Carrying,
): readonly Shape[] {
  return marksOn(clip, frame).shapes.filter((shape) => isCopyable(shape, carrying));
}

/** A path stays with the frames of its clip; a shape that shows on all frames of it is there already. */
function isCopyable({ kind, carried }: Shape, { by }: Carrying): boolean {
  return kind !== 'path' && !(by === 'same' && carried === true);
}

/** The other named frames of the clip. */
function ownPlaces({ clip, frame }: Here): ShapePlace[] {
  return CHECKPOINTS.flatMap((checkpoint) =>
    clip.checkpoints[checkpoint]?.index === frame.index ? [] : placeAt(clip, checkpoint, '', SAME_CLIP),
  );
}

/** The same checkpoint in the other view. */
function otherViews(here: Here, carrying: (other: BookClip) => Carrying): ShapePlace[] {
  const others = here.swing.clips.filter(({ id }) => id !== here.clip.id);
  return others.flatMap((other) =>
    namesOf(here).flatMap((checkpoint) => placeAt(other, checkpoint, `${VIEW_LABELS[other.view]}, `, carrying(other))),
  );
}

function placeAt(clip: BookClip, checkpoint: Checkpoint, prefix: string, carrying: Carrying): ShapePlace[] {
  const frame = clip.checkpoints[checkpoint];
  if (frame === undefined) return [];
  const name = CHECKPOINT_LABELS[checkpoint];
  const label = prefix === '' ? name : prefix + lowered(name);
  return [{ id: `${clip.id} ${checkpoint}`, label, clip, frame, carrying }];
}

function namesOf({ clip, frame }: Here): readonly Checkpoint[] {
  return CHECKPOINTS.filter((checkpoint) => clip.checkpoints[checkpoint]?.index === frame.index);
}

function carryingOf(from: BookSwing, fromClip: BookClip, to: BookSwing, toClip: BookClip): Carrying {
  return carryingBetween(
    { clip: fromClip, handedness: from.lesson.handedness },
    { clip: toClip, handedness: to.lesson.handedness },
  );
}
