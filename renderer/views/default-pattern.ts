import pattern from '../../resources/pattern.json';
import { parsePattern } from '../../core/measure/pattern.ts';

/** The pattern that Baybook comes with; it tells which differences are too small to matter. */
export const DEFAULT_PATTERN = parsePattern(pattern);
