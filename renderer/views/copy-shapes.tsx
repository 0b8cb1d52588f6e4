import { useMemo } from 'react';
import type { BookClip } from '../../core/model/book.ts';
import type { FrameRef } from '../../core/model/frame.ts';
import type { FrameMarks, Shape } from '../../core/model/mark.ts';
import { app } from '../state/app.ts';
import { copyShapeTo, copyShapesHere, shapeSources, shapeTargets } from '../state/copy-shapes.ts';
import { useStore } from '../state/store.ts';
import { Picker } from './parts/fields.tsx';

/** Brings the shapes of another frame, of the other view or of then onto this frame. Nothing where there are none. */
export function CopyShapesHere({ clip, marks }: { readonly clip: BookClip; readonly marks: FrameMarks }) {
  const { frame } = marks;
  const swing = useStore(app, (state) => state.swing);
  const then = useStore(app, (state) => state.then);
  const sources = useMemo(
    () => (swing === null ? [] : shapeSources({ swing, then, clip, frame })),
    [swing, then, clip, frame],
  );
  if (sources.length === 0) return null;
  return (
    <Picker
      label="Copy shapes here"
      value=""
      none="from another frame ..."
      options={sources.map(({ id, label }) => ({ value: id, label: `from ${label}` }))}
      onChange={(id) => {
        const source = sources.find((each) => each.id === id);
        if (source !== undefined) copyShapesHere(source, clip, frame);
      }}
    />
  );
}

/** Puts a copy of the selected shape onto another named frame. */
export function CopyShapeTo(props: { readonly clip: BookClip; readonly shape: Shape; readonly frame: FrameRef }) {
  const { clip, shape, frame } = props;
  const swing = useStore(app, (state) => state.swing);
  const targets = useMemo(
    () => (swing === null ? [] : shapeTargets({ swing, then: null, clip, frame })),
    [swing, clip, frame],
  );
  if (targets.length === 0) return null;
  return (
    <Picker
      label="Copy it"
      value=""
      none="to another frame ..."
      options={targets.map(({ id, label }) => ({ value: id, label: `to ${label}` }))}
      onChange={(id) => {
        const target = targets.find((each) => each.id === id);
        if (target !== undefined) copyShapeTo(shape, target);
      }}
    />
  );
}
