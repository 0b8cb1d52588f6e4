import type { ShapeColour } from '../model/mark.ts';
import type { Style } from '../report/captions.ts';

export type { Style };

/**
 * How lines and texts look, everywhere. Orange and sky blue are from the set of Okabe & Ito that people with any kind of
 * colour vision can tell apart; dashes tell then from now where colour cannot.
 */
export const STYLES = ['plain', 'then', 'now'] as const satisfies readonly Style[];

export const STYLE_COLOURS: Readonly<Record<Style, string>> = {
  plain: '#F7F7F2',
  then: '#E69F00',
  now: '#56B4E9',
};

/** What a coach may choose for a shape. Light, so that with their dark edge they hold on all that is dark. */
export const SHAPE_INKS: Readonly<Record<ShapeColour, string>> = {
  white: '#F7F7F2',
  yellow: '#F0E442',
  pink: '#FF9BD2',
  lime: '#8CF08C',
};

/** The chosen colour, else that of then, of now or of neither. */
export function colourOf({ look, colour }: { readonly look: Style; readonly colour?: ShapeColour }): string {
  return colour === undefined ? STYLE_COLOURS[look] : SHAPE_INKS[colour];
}

/**
 * Under every stroke. Pure black on purpose: with it, on any background at all, the line or its outline holds the 3:1 that
 * WCAG 2.2 (1.4.11) asks of graphics; with a dark grey there are backgrounds on which neither orange nor the grey does.
 */
export const OUTLINE_COLOUR = '#000000';

/** Behind a label: dark enough that the text holds 4.5:1 even over white. */
export const PLATE_COLOUR = 'rgba(0, 0, 0, 0.78)';
/** How much of what is behind a plate it covers, 0 to 1; the same number as in PLATE_COLOUR. */
export const PLATE_OPACITY = 0.78;

/** Where a part should be: a soft wedge that the picture shows through, and a dotted line. */
export const GOAL_FILL = 'rgba(190, 235, 205, 0.32)';
export const GOAL_COLOUR = '#D8F3E0';
/** Of a number on its plate that is on target, and that misses. Neither then's nor now's colour. */
export const TONE_COLOURS = { good: '#BFE8CC', missed: '#FFE08A' } as const;

/** Dash and gap of a look's lines, in stroke units; empty = solid. */
export const STYLE_DASHES: Readonly<Record<Style, readonly number[]>> = { plain: [], then: [7, 5], now: [] };

/** The one type face, of screen and stills. */
export const FONT_FAMILY = 'Source Sans 3';
export type FontWeight = 400 | 600;

/** A canvas font; `size` in pixels, > 0. */
export function fontOf(size: number, weight: FontWeight): string {
  return `${weight} ${size}px "${FONT_FAMILY}"`;
}
