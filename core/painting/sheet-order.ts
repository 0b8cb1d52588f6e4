import { say } from '../model/say.ts';
import type { Verdict } from '../model/reading.ts';
import type { PanelCaption } from '../report/captions.ts';
import type { PicturePoint } from '../model/mark.ts';
import type { Box } from './box.ts';
import type { DrawItem } from './draw-item.ts';
import type { Style } from './styles.ts';

/** What a lesson sheet shows. Every number comes as a finished text with its unit and ±; nothing is computed here. */
export interface SheetOrder {
  /** Width of the still in target pixels, >= 320. All sizes grow with it; at 1600 readings are 28 pixels high. */
  readonly width: number;
  /** What is read first, after the name; null: the name alone. */
  readonly headline?: string | null;
  /** One row or more, e.g. one of address, top and impact, or one a checkpoint with then and now. */
  readonly rows: readonly SheetRow[];
  /** What must be known to read the numbers, e.g. "Placing error assumed." */
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
}

export interface SheetRow {
  /** Side by side, one or more. */
  readonly panels: readonly PanelOrder[];
  /** The table below the panels; empty where nothing is compared. */
  readonly comparisons: readonly ComparisonRow[];
}

export interface PanelOrder {
  /** Size of the picture in its own pixels, >= 1. */
  readonly picture: { readonly width: number; readonly height: number };
  /** The part that is shown, in picture coordinates, inside the picture; null = all of it. */
  readonly crop: Box | null;
  readonly look: Style;
  readonly caption: PanelCaption;
  readonly marks: readonly DrawItem[];
  /** Places that no text should cover, in picture coordinates. */
  readonly keepFree?: readonly PicturePoint[];
  readonly readings: readonly ReadingRow[];
}

export interface ReadingRow {
  readonly label: string;
  /** E.g. "38.2° ± 1.1°", or why there is no number. */
  readonly value: string;
}

export interface ComparisonRow {
  readonly label: string;
  readonly then: string;
  readonly now: string;
  /** Now minus then. */
  readonly difference: string;
  readonly verdict: Verdict;
}

/** Stands among the notes of a sheet on which a hidden point is drawn. */
export const HIDDEN_POINT_NOTE = say`Dotted ring: a place that was guessed because something covers it.`;
