import content from '../../resources/pattern.json' with { type: 'json' };
import { parsePatternFile } from './pattern.ts';

/**
 * The pattern that ships with the program: common practice only, until the coach has an own one. It is a pattern file
 * like any other. It is read here and not in core/measure, which takes no packages: there a pattern is handed in.
 */
export const SHIPPED_PATTERN = parsePatternFile(content);
