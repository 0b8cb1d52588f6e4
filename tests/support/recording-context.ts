import type { PaintContext } from '../../core/painting/context.ts';

/** One call or setting, e.g. "moveTo 1 2" or "lineWidth = 3". Numbers are rounded to 6 decimals. */
export type Recorded = string;

/** A context that writes down what is done to it. Text is `charWidth` wide a character. */
export function recordingContext(charWidth = 10): { ctx: PaintContext; calls: Recorded[] } {
  const calls: Recorded[] = [];
  const shown = (value: unknown): string => {
    if (typeof value === 'number') return String(Math.round(value * 1e6) / 1e6 + 0);
    if (Array.isArray(value)) return `[${value.map(shown).join(' ')}]`;
    return String(value);
  };
  const call =
    (name: string) =>
    (...values: unknown[]): void => {
      calls.push([name, ...values.map(shown)].join(' '));
    };
  const methods = {
    save: call('save'),
    restore: call('restore'),
    translate: call('translate'),
    scale: call('scale'),
    beginPath: call('beginPath'),
    moveTo: call('moveTo'),
    lineTo: call('lineTo'),
    closePath: call('closePath'),
    rect: call('rect'),
    arc: call('arc'),
    stroke: call('stroke'),
    fill: call('fill'),
    clip: call('clip'),
    fillRect: call('fillRect'),
    fillText: call('fillText'),
    setLineDash: call('setLineDash'),
    measureText: (text: string) => ({ width: text.length * charWidth }),
    lineWidth: 1,
    lineCap: 'butt',
    lineJoin: 'miter',
    strokeStyle: '',
    fillStyle: '',
    font: '',
    textAlign: 'left',
    textBaseline: 'alphabetic',
  };
  const ctx = new Proxy(methods, {
    set(target, name, value) {
      calls.push(`${String(name)} = ${shown(value)}`);
      return Reflect.set(target, name, value);
    },
  });
  return { ctx, calls };
}
