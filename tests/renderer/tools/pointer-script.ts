import type { FrameMarks, PathShape, PicturePoint } from '../../../core/model/mark.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import { stepTool } from '../../../renderer/tools/step-tool.ts';
import type { GroundPlan } from '../../../renderer/tools/ground-plan.ts';
import type { Target } from '../../../renderer/tools/target.ts';
import { idle } from '../../../renderer/tools/tool.ts';
import type { ToolEvent, ToolName, ToolScene, ToolState } from '../../../renderer/tools/tool.ts';
import { pointsOfView } from '../../../renderer/tools/points-tool.ts';

export const BARE: FrameMarks = { frame: { index: 3, pts: 1536 }, points: {}, shapes: [] };

/** A hand without a window: sends events to a tool and keeps what it says to keep. */
export class PointerScript {
  marks: FrameMarks;
  state: ToolState;
  draft: FrameMarks | null = null;
  selected: Target | null = null;
  run: readonly BodyPointId[] = pointsOfView('down-the-line', null);
  next: BodyPointId | null = null;
  starts: ToolScene['starts'] = {};
  offered: ToolScene['starts'] = {};
  /** Frames gone on since the first, each one tick long. */
  gone = 0;
  asked: BodyPointId | null = null;
  plan: GroundPlan | null = null;
  /** Ground marks that are kept with another frame; null: those of this one. */
  elsewhere: ToolScene['ground'] | null = null;
  reach = 8;
  used = false;
  kept: FrameMarks[] = [];

  constructor(tool: ToolName, marks: FrameMarks = BARE) {
    this.marks = marks;
    this.state = idle(tool);
  }

  send(event: ToolEvent): this {
    const step = stepTool(this.state, event, {
      marks: this.marks,
      selected: this.selected,
      reach: this.reach,
      newId: `shape-${String(this.kept.length)}`,
      run: this.run,
      next: this.next,
      starts: this.starts,
      offered: this.offered,
      path: { subject: 'clubhead', home: this.marks, shape: this.path(), pts: this.marks.frame.pts + this.gone },
      ground: this.elsewhere ?? {
        plan: this.plan,
        home: this.marks,
        shape: this.marks.shapes.find((shape) => shape.kind === 'ground') ?? null,
      },
      centre: { x: 500, y: 300 },
    });
    this.state = step.state;
    this.draft = step.draft;
    this.selected = step.selected;
    this.used = step.used;
    this.gone += step.goBy ?? 0;
    this.asked = step.ask ?? this.asked;
    if (step.commit !== null) {
      this.marks = step.commit;
      this.kept.push(step.commit);
    }
    return this;
  }

  path(): PathShape | null {
    return this.marks.shapes.find((shape) => shape.kind === 'path') ?? null;
  }

  down(x: number, y: number): this {
    return this.send({ type: 'down', at: { x, y } });
  }
  move(x: number, y: number): this {
    return this.send({ type: 'move', at: { x, y } });
  }
  up(x: number, y: number): this {
    return this.send({ type: 'up', at: { x, y } });
  }
  click(at: PicturePoint): this {
    return this.move(at.x, at.y).down(at.x, at.y).up(at.x, at.y);
  }
  key(key: string): this {
    return this.send({ type: 'key', key });
  }
  nudge(x: number, y: number): this {
    return this.send({ type: 'nudge', by: { x, y } });
  }
  cancel(): this {
    return this.send({ type: 'cancel' });
  }
}
