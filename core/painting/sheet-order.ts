import type { Verdict } from '../model/reading.ts';
import type { Box } from './box.ts';
import type { DrawItem } from './draw-item.ts';
import type { Style } from './styles.ts';

/** What a lesson sheet shows. Every number comes as a finished text with its unit and ±; nothing is computed here. */
export interface SheetOrder {
  /** Width of the still in target pixels, >= 320. All sizes grow with it; at 1600 readings are 28 pixels high. */
  readonly width: number;
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
  readonly readings: readonly ReadingRow[];
}

/** Finished texts. What is the same in all panels is shown once, at the head of the sheet. */
export interface PanelCaption {
  /** The only name that is ever shown. */
  readonly firstName: string;
  readonly date: string;
  readonly view: string;
  readonly club: string;
  readonly checkpoint: string;
  /** E.g. "frame 118". */
  readonly frame: string;
  /** E.g. "3.937 s", or null where it is not known. */
  readonly time: string | null;
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

/** Stand at the foot of every sheet with numbers. */
export const SHEET_CAUTIONS: readonly string[] = [
  'Numbers come from one camera and hold for what it could see; ± is the 95 % interval.',
  'If anything hurts, stop and see a licensed practitioner.',
];

/** Stands among the notes of a sheet on which a hidden point is drawn. */
export const HIDDEN_POINT_NOTE = 'Dotted ring: a place that was guessed because something covers it.';
