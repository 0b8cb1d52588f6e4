import { READING_IDS, UNITS } from '../model/reading.ts';
import type { ReadingAspect, ReadingId, Unit } from '../model/reading.ts';
import { CHECKPOINTS } from '../model/words.ts';
import type { Checkpoint } from '../model/words.ts';

/** The coach's own list of wanted ranges and tolerances, with where each comes from. */
export interface Pattern {
  readonly name: string;
  /** What this list is and is not, for people. */
  readonly about: string;
  readonly wanted: readonly WantedRange[];
  readonly tolerances: readonly Tolerance[];
}

/** Where a reading is wanted to lie. */
export interface WantedRange {
  /** null: wanted in the trade, but no reading measures it yet. */
  readonly reading: ReadingId | null;
  /** Checkpoints it holds at; empty = wherever the reading is made. */
  readonly checkpoints: readonly Checkpoint[];
  /** Inclusive, in `unit` (a limit of 0 holds in every unit of the reading); null = no limit on that side. */
  readonly from: number | null;
  readonly to: number | null;
  readonly unit: Unit;
  readonly words: string;
  /** Where the range comes from. */
  readonly basis: string;
}

/** A difference smaller than `within` counts as no difference in practice. */
export interface Tolerance {
  readonly reading: ReadingId;
  readonly aspect: ReadingAspect;
  readonly unit: Unit;
  /** In `unit`, > 0. */
  readonly within: number;
}

/** The tolerance of a reading in a unit, or null when the pattern has none. */
export function toleranceOf(pattern: Pattern, reading: ReadingId, aspect: ReadingAspect, unit: Unit): number | null {
  const found = pattern.tolerances.find(
    (entry) => entry.reading === reading && entry.aspect === aspect && entry.unit === unit,
  );
  return found?.within ?? null;
}

/** The wanted range of a reading at a checkpoint, or null. */
export function wantedOf(pattern: Pattern, reading: ReadingId, checkpoint: Checkpoint): WantedRange | null {
  return (
    pattern.wanted.find(
      (entry) =>
        entry.reading === reading && (entry.checkpoints.length === 0 || entry.checkpoints.includes(checkpoint)),
    ) ?? null
  );
}

/** Reads a pattern from parsed JSON. Throws an Error that names the field and its rule. */
export function parsePattern(value: unknown): Pattern {
  const pattern = record(value, 'pattern');
  return {
    name: text(pattern['name'], 'name'),
    about: text(pattern['about'], 'about'),
    wanted: list(pattern['wanted'], 'wanted').map(parseWanted),
    tolerances: list(pattern['tolerances'], 'tolerances').map(parseTolerance),
  };
}

function parseWanted(value: unknown, index: number): WantedRange {
  const at = `wanted[${index}]`;
  const entry = record(value, at);
  const reading = entry['reading'];
  return {
    reading: reading === null ? null : oneOf(READING_IDS, reading, `${at}.reading`),
    checkpoints: list(entry['checkpoints'], `${at}.checkpoints`).map((name) =>
      oneOf(CHECKPOINTS, name, `${at}.checkpoints`),
    ),
    from: entry['from'] === null ? null : finite(entry['from'], `${at}.from`),
    to: entry['to'] === null ? null : finite(entry['to'], `${at}.to`),
    unit: oneOf(UNITS, entry['unit'], `${at}.unit`),
    words: text(entry['words'], `${at}.words`),
    basis: text(entry['basis'], `${at}.basis`),
  };
}

function parseTolerance(value: unknown, index: number): Tolerance {
  const at = `tolerances[${index}]`;
  const entry = record(value, at);
  const within = finite(entry['within'], `${at}.within`);
  if (within <= 0) throw new Error(`${at}.within must be greater than 0`);
  return {
    reading: oneOf(READING_IDS, entry['reading'], `${at}.reading`),
    aspect: oneOf(['value', 'change'] as const, entry['aspect'], `${at}.aspect`),
    unit: oneOf(UNITS, entry['unit'], `${at}.unit`),
    within,
  };
}

function record(value: unknown, at: string): Record<string, unknown> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw new Error(`${at} must be an object`);
  return Object.fromEntries(Object.entries(value));
}

function list(value: unknown, at: string): readonly unknown[] {
  if (!Array.isArray(value)) throw new Error(`${at} must be a list`);
  return value;
}

function text(value: unknown, at: string): string {
  if (typeof value !== 'string' || value === '') throw new Error(`${at} must be a text`);
  return value;
}

function finite(value: unknown, at: string): number {
  if (typeof value !== 'number' || !Number.isFinite(value)) throw new Error(`${at} must be a finite number`);
  return value;
}

function oneOf<T extends string>(words: readonly T[], value: unknown, at: string): T {
  const found = words.find((word) => word === value);
  if (found === undefined) throw new Error(`${at} must be one of ${words.join(', ')}`);
  return found;
}
