import content from '../../resources/pattern.json' with { type: 'json' };
import { parsePattern } from './pattern.ts';

/** The pattern that ships with the program: common practice only, until the coach has an own one. */
export const DEFAULT_PATTERN = parsePattern(content);
