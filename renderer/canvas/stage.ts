import { Canvas, Circle, FabricObject, Point, config } from 'fabric';
import type { TPointerEvent } from 'fabric';
import type { PicturePoint } from '../../core/model/mark.ts';
import type { DrawItem } from '../../core/painting/draw-item.ts';
import type { LabelMemory } from '../../core/painting/label-places.ts';
import { paint } from '../../core/painting/paint.ts';
import { toPicture } from './view-transform.ts';
import type { ViewTransform } from './view-transform.ts';
import { reach } from './bench-view.ts';
import { labelSize } from './label-size.ts';
import { pointUnder } from './point-under.ts';

/**
 * A small ring over the picture: a handle that can be taken, a ring that picks a mark out, or a place where a point that
 * is not placed yet may start (`next`: the one that is asked for). `unseen`: placed before this picture was on screen.
 * `under`: a body point that the pointer would take.
 */
export interface StageRing {
  readonly at: PicturePoint;
  readonly kind: 'handle' | 'selected' | 'source' | 'start' | 'next' | 'unseen' | 'under';
}

/** What the pointer does with its main button (pen and finger alike), in picture coordinates, never rounded. */
export type StagePointer = (type: 'down' | 'move' | 'up', at: PicturePoint) => void;

export interface StageMarks {
  readonly items: readonly DrawItem[];
  readonly rings: readonly StageRing[];
  /** While a mark is dragged texts of what does not move stay where they are. */
  readonly steady: boolean;
  /** Places of the picture that texts leave free as well as they can: the player. */
  readonly keepFree?: readonly PicturePoint[];
}

export interface Stage {
  /** How the picture lies in the bench, and the bench's size in CSS pixels. */
  setView(view: ViewTransform, width: number, height: number): void;
  /** What to draw. The model is elsewhere: nothing is ever read back from here. */
  setMarks(marks: StageMarks): void;
  dispose(): Promise<boolean>;
}

/** Radius in CSS pixels, at every zoom. */
const RING_RADIUS: Readonly<Record<StageRing['kind'], number>> = {
  handle: 5,
  selected: 11,
  source: 14,
  start: 6,
  next: 9,
  unseen: 18,
  under: 8,
};
const RING_WIDTH: Readonly<Record<StageRing['kind'], number>> = {
  handle: 2,
  selected: 2.5,
  source: 3,
  start: 1.5,
  next: 2.25,
  unseen: 3,
  under: 2,
};
const DASHES: Readonly<Partial<Record<StageRing['kind'], readonly number[]>>> = {
  source: [6, 5],
  start: [3, 3],
  next: [5, 3],
  unseen: [2, 4],
};
/** Under the ring, each side of it: over white and over black clothes one of the two is seen. */
const UNDERLAY = { colour: '#000000', wider: 2.5 } as const;

/** All marks of the frame as one object of the canvas, painted by the painter that paints the stills. */
class MarksObject extends FabricObject {
  items: readonly DrawItem[] = [];
  keepFree: readonly PicturePoint[] = [];
  view: ViewTransform = { zoom: 1, panLeft: 0, panTop: 0 };
  benchWidth = 1;
  benchHeight = 1;
  readonly labels: LabelMemory = new Map();

  override isOnScreen(): boolean {
    return true;
  }

  /** The context arrives in picture coordinates: the canvas has applied its viewport transform. */
  override render(context: CanvasRenderingContext2D): void {
    const ratio = this.canvas?.getRetinaScaling() ?? 1;
    const corner = toPicture(this.view, { left: 0, top: 0 });
    const visible = {
      x: corner.x,
      y: corner.y,
      width: this.benchWidth / this.view.zoom,
      height: this.benchHeight / this.view.zoom,
    };
    const scale = this.view.zoom * ratio;
    const { keepFree, labels } = this;
    paint(context, this.items, { scale, unit: ratio, textSize: labelSize(ratio), visible, keepFree, labels });
  }
}

/** fabric asks all ancestors for their scrolling, twice a move, which costs a layout each time; the canvas knows where it is. */
class StageCanvas extends Canvas {
  override getViewportPoint(event: TPointerEvent): Point {
    if (!('clientX' in event)) return super.getViewportPoint(event);
    const { left, top } = this.upperCanvasEl.getBoundingClientRect();
    return new Point(event.clientX - left, event.clientY - top);
  }
}

/**
 * The transparent canvas over the picture, and the only file that knows fabric. Pointer events, not mouse events: those are
 * whole pixels. Rings are one centred object each, scaled against the zoom; nothing is cached, picked or moved by fabric,
 * because its own handles are off by up to 0.9 px and its export rounds.
 */
export function createStage(element: HTMLCanvasElement, pointer: StagePointer): Stage {
  const canvas = new StageCanvas(element, {
    enablePointerEvents: true,
    selection: false,
    skipTargetFind: true,
    renderOnAddRemove: false,
    enableRetinaScaling: true,
    defaultCursor: 'crosshair',
  });
  const marks = new MarksObject({ objectCaching: false, evented: false, selectable: false });
  canvas.add(marks);
  let rings: Circle[] = [];
  let grown: { readonly at: PicturePoint; readonly rings: readonly Circle[] } | null = null;

  /** The body point under the pointer becomes a ring, which shows what a press would take. */
  function growUnder(at: PicturePoint | null): void {
    const under = at === null ? null : pointUnder(marks.items, at, reach());
    if (under?.x === grown?.at.x && under?.y === grown?.at.y) return;
    if (grown !== null) canvas.remove(...grown.rings);
    const ring = under === null ? null : ({ at: under, kind: 'under' } as const);
    grown = ring === null ? null : { at: ring.at, rings: [underlayOf(ring), ringObject(ring)] };
    scaleRings();
    if (grown !== null) canvas.add(...grown.rings);
    canvas.requestRenderAll();
  }
  canvas.on('mouse:out', () => growUnder(null));

  for (const type of ['down', 'move', 'up'] as const)
    canvas.on(`mouse:${type}`, ({ e: event, scenePoint: { x, y } }) => {
      // While a button is held something is moved or drawn, and what is passed is not meant.
      growUnder('buttons' in event && event.buttons === 0 && type === 'move' ? { x, y } : null);
      if (!('button' in event) || event.button <= 0) pointer(type, { x, y });
    });

  function scaleRings(): void {
    for (const ring of [...rings, ...(grown?.rings ?? [])])
      ring.set({ scaleX: 1 / marks.view.zoom, scaleY: 1 / marks.view.zoom });
  }

  return {
    setView(view, width, height) {
      const ratio = window.devicePixelRatio;
      // fabric reads the ratio once; a window that is moved to another screen has another one.
      const isOther = ratio !== config.devicePixelRatio;
      if (isOther) config.configure({ devicePixelRatio: ratio });
      if (isOther || width !== marks.benchWidth || height !== marks.benchHeight)
        canvas.setDimensions({ width, height });
      marks.benchWidth = width;
      marks.benchHeight = height;
      marks.view = view;
      marks.labels.clear();
      canvas.setViewportTransform([view.zoom, 0, 0, view.zoom, view.panLeft, view.panTop]);
      scaleRings();
      canvas.requestRenderAll();
    },
    setMarks({ items, rings: wanted, steady, keepFree = [] }) {
      marks.items = items;
      marks.keepFree = keepFree;
      growUnder(null);
      if (!steady) marks.labels.clear();
      canvas.remove(...rings);
      rings = wanted.flatMap((ring) => [underlayOf(ring), ringObject(ring)]);
      scaleRings();
      canvas.add(...rings);
      canvas.requestRenderAll();
    },
    dispose: () => canvas.dispose(),
  };
}

function dashOf(kind: StageRing['kind']): number[] | null {
  const dash = DASHES[kind];
  return dash === undefined ? null : [...dash];
}

function ringObject(ring: StageRing): Circle {
  return new Circle({
    left: ring.at.x,
    top: ring.at.y,
    originX: 'center',
    originY: 'center',
    radius: RING_RADIUS[ring.kind],
    fill: ring.kind === 'handle' ? 'rgba(255,255,255,0.25)' : 'transparent',
    stroke: '#ffffff',
    strokeWidth: RING_WIDTH[ring.kind],
    strokeDashArray: dashOf(ring.kind),
    objectCaching: false,
    evented: false,
    selectable: false,
  });
}

/** Whole also under a dashed ring, so that its dashes stand out from whatever lies there. */
function underlayOf(ring: StageRing): Circle {
  const under = ringObject(ring);
  under.set({
    fill: 'transparent',
    stroke: UNDERLAY.colour,
    strokeWidth: RING_WIDTH[ring.kind] + UNDERLAY.wider,
    strokeDashArray: null,
  });
  return under;
}
