import type { ToolIcon as Drawing } from '../../core/shapes/kind.ts';

/** What a tool makes, as a small drawing; the name stands beside it. */
export function ToolIcon({ icon: { line, dashed, dots = [] } }: { readonly icon: Drawing }) {
  return (
    <svg viewBox="0 0 18 18" fill="none" stroke="currentColor" strokeWidth="1.8" aria-hidden="true">
      <path d={line} />
      {dashed === undefined ? null : <path d={dashed} strokeDasharray="1.5 2" />}
      {dots.map(([x, y]) => (
        <circle key={`${String(x)} ${String(y)}`} cx={x} cy={y} r="1.3" fill="currentColor" />
      ))}
    </svg>
  );
}
