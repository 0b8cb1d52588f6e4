import text from '../../resources/pattern.json?raw';
import { parsePattern } from '../../core/measure/pattern.ts';

/** The pattern that Baybook comes with; it tells which differences are too small to matter. */
export const DEFAULT_PATTERN = parsePattern(JSON.parse(text));
