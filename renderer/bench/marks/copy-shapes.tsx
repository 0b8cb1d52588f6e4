import { useMemo } from 'react';
import { say } from '../../../core/model/say.ts';
import { said } from '../../controls/said.tsx';
import type { BookClip } from '../../../core/model/book.ts';
import type { FrameRef } from '../../../core/model/frame.ts';
import type { FrameMarks, Shape } from '../../../core/model/mark.ts';
import { app } from '../../shell/state/app-state.ts';
import {
  copyAllShapesTo,
  copyShapeTo,
  copyShapesHere,
  placesNotNamed,
  shapeSources,
  shapeTargets,
} from '../state/copy-shapes.ts';
import type { ShapePlace } from '../state/copy-shapes.ts';
import { useStore } from '../../shell/state/store.ts';
import lay from '../../controls/lay.module.css';
import { Picker } from '../../controls/fields.tsx';

/** Brings the shapes of another frame, of the other view or of then onto this frame, or those of this frame onto another. */
export function CopyShapesHere({ clip, marks }: { readonly clip: BookClip; readonly marks: FrameMarks }) {
  const { frame } = marks;
  const swing = useStore(app, (state) => state.swing);
  const then = useStore(app, (state) => state.then);
  const here = useMemo(() => (swing === null ? null : { swing, then, clip, frame }), [swing, then, clip, frame]);
  const sources = useMemo(() => (here === null ? [] : shapeSources(here)), [here]);
  const targets = useMemo(() => (here === null ? [] : shapeTargets(here, null)), [here]);
  const notNamed = useMemo(() => (here === null ? [] : placesNotNamed(here)), [here]);
  if (sources.length === 0 && targets.length === 0) return null;
  return (
    <>
      <Places
        label={say`Copy shapes here`}
        way="from"
        places={sources}
        onChoose={(source) => copyShapesHere(source, clip, frame)}
      />
      <Places
        label={say`Copy this frame's shapes`}
        way="to"
        places={targets}
        onChoose={(target) => copyAllShapesTo({ clip, frame }, target)}
      />
      <NotNamed places={notNamed} />
    </>
  );
}

/** Puts a copy of the selected shape onto another named frame. */
export function CopyShapeTo(props: { readonly clip: BookClip; readonly shape: Shape; readonly frame: FrameRef }) {
  const { clip, shape, frame } = props;
  const swing = useStore(app, (state) => state.swing);
  const here = useMemo(() => (swing === null ? null : { swing, then: null, clip, frame }), [swing, clip, frame]);
  const targets = useMemo(() => (here === null ? [] : shapeTargets(here, shape)), [here, shape]);
  const notNamed = useMemo(() => (here === null ? [] : placesNotNamed(here)), [here]);
  return (
    <>
      <Places label={say`Copy it`} way="to" places={targets} onChoose={(target) => copyShapeTo(shape, target)} />
      <NotNamed places={notNamed} />
    </>
  );
}

/** Each is an action and no state: the list goes back to its first line. Nothing where there are no places. */
function Places(props: {
  readonly label: string;
  readonly way: 'from' | 'to';
  readonly places: readonly ShapePlace[];
  readonly onChoose: (place: ShapePlace) => void;
}) {
  const { label, way, places, onChoose } = props;
  if (places.length === 0) return null;
  return (
    <Picker
      label={label}
      value=""
      none={way === 'from' ? say`from ...` : say`to ...`}
      options={places.map(({ id, label: place }) => ({
        value: id,
        label: way === 'from' ? say`from ${place}` : say`to ${place}`,
      }))}
      onChange={(id) => {
        const place = places.find((each) => each.id === id);
        if (place !== undefined) onChoose(place);
      }}
    />
  );
}

/** Why a frame that one would look for is not on the list. */
function NotNamed({ places }: { readonly places: readonly string[] }) {
  return places.length === 0 ? null : <p className={lay.soft}>{said`Not named yet: ${places.join('; ')}.`}</p>;
}
