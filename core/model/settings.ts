import type { LanguageChoice } from './languages.ts';
import type { ShapeLook } from './mark.ts';

/** What a coach chose for the program itself, outside of any book. */
export interface Settings {
  /** Keys by command; commands that are not named have their usual ones. */
  readonly keys: Readonly<Record<string, readonly string[]>>;
  readonly textSize: TextSize;
  readonly appearance: Appearance;
  /** What Baybook speaks from its next start on; left out: as the system. */
  readonly language?: LanguageChoice;
  /** In which people read and type lengths and speeds. */
  readonly units: UnitSystem;
  /** How many lines of a picture 1080 lines high the enlarged view shows; of others as large a part. In ENLARGED_LINES. */
  readonly enlargedLines: number;
  /** The look that a shape was given last, for the next one; left out: as usual. */
  readonly drawing?: ShapeLook;
}

/** Per cent of the usual size of all text. */
export const TEXT_SIZES = [100, 125, 150, 200] as const;
export type TextSize = (typeof TEXT_SIZES)[number];

/** `system`: light or dark as the system has it. */
export const APPEARANCES = ['system', 'light', 'dark'] as const;
export type Appearance = (typeof APPEARANCES)[number];

/** `metric`: cm, m, m/s. `imperial`: inches, yards, mph. */
export const UNIT_SYSTEMS = ['metric', 'imperial'] as const;
export type UnitSystem = (typeof UNIT_SYSTEMS)[number];

/** From some pixels to a whole trunk. */
export const ENLARGED_LINES = { least: 16, most: 270 } as const;

export const USUAL_SETTINGS: Settings = {
  ...{ keys: {}, textSize: 100, appearance: 'system', units: 'metric' },
  // A joint with its sleeve.
  enlargedLines: 44,
};

/** The settings as they were read, and what the coach must know of that: a sentence, or null. */
export interface ReadSettings {
  readonly settings: Settings;
  readonly trouble: string | null;
}
