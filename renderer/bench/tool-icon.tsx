import { SHAPES, isDrawnKind } from '../../core/shapes/shapes.ts';
import type { DrawnKind } from '../../core/shapes/shapes.ts';
import type { ToolName } from '../tools/tool.ts';

/** What a tool makes, as a small drawing; the name stands beside it. */
export function ToolIcon({ tool }: { readonly tool: ToolName }) {
  return (
    <svg viewBox="0 0 18 18" fill="none" stroke="currentColor" strokeWidth="1.8" aria-hidden="true">
      {isDrawnKind(tool) ? <path d={SHAPES[tool].drawn.icon} /> : DRAWINGS[tool]}
    </svg>
  );
}

const DRAWINGS: Readonly<Record<Exclude<ToolName, DrawnKind>, React.ReactNode>> = {
  move: (
    <>
      <circle cx="6" cy="12" r="3" />
      <path d="M8.5 9.5 15 3M10.5 3H15v4.5" />
    </>
  ),
  points: (
    <>
      <circle cx="9" cy="3.5" r="2" />
      <path d="M9 5.5v6" strokeDasharray="1.5 1.5" />
      <circle cx="9" cy="13.5" r="2" fill="currentColor" />
    </>
  ),
  circle: <circle cx="9" cy="9" r="6.2" />,
  free: <path d="M2.5 13c2-7 4.5-7 5.5-3s3 3.5 7.5-5" />,
  path: (
    <>
      <path d="M3 4c0 8 5 11 12 10" strokeDasharray="1.5 2" />
      <circle cx="3" cy="4" r="1.4" fill="currentColor" />
      <circle cx="6.5" cy="11" r="1.4" fill="currentColor" />
      <circle cx="15" cy="14" r="1.4" fill="currentColor" />
    </>
  ),
  ground: (
    <>
      <path d="M1.5 11.5 16.5 8M6 4.5l6 11" />
      <circle cx="6" cy="4.5" r="1.2" fill="currentColor" />
      <circle cx="12" cy="15.5" r="1.2" fill="currentColor" />
    </>
  ),
  edge: (
    <>
      <path d="M2.5 14.5C6 8.5 10.5 5 15.5 3.5" />
      <path d="M2.5 14.5 15.5 3.5" strokeDasharray="1.5 2" />
    </>
  ),
};
