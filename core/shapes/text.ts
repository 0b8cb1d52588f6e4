import { say } from '../model/say.ts';
import type { TextShape } from '../model/mark.ts';
import type { ShapeKindOf } from './kind.ts';
import { lastOf, movedIf } from './places.ts';

/** Until the coach has typed something. */
export const FIRST_WORDS = say`Text`;

/** A few words on the picture; measures nothing. */
export const text = {
  label: say`Text`,
  isForMeasure: false,
  tool: {
    // The letter of what it does: type.
    key: 'x',
    icon: { line: 'M4 4.5h10M9 4.5V15' },
    hints: [say`Click where the words belong; type them in the panel.`],
  },
  stroke: (places, id) => (places.length === 0 ? null : { kind: 'text', id, at: lastOf(places), words: FIRST_WORDS }),
  handles: ({ at }) => [{ name: 'at', at }],
  moved: (shape, handle, by) => ({ ...shape, at: movedIf(shape.at, 'at', handle, by) }),
  figures: ({ at, words }) => [{ kind: 'words', at, words }],
  labelAt: ({ at }) => at,
  numbers: () => [],
  text: () => '',
  copied: (shape, id, { place }) => ({ ...shape, id, at: place(shape.at) }),
} as const satisfies ShapeKindOf<TextShape>;
