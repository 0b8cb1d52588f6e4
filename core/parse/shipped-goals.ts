import content from '../../resources/goals.json' with { type: 'json' };
import { parseGoalsFile } from './goals.ts';

/**
 * The goals that ship with the program: common practice only, until the coach has own ones. They are a goals file
 * like any other. They are read here and not in core/measure, which takes no packages: there goals are handed in.
 */
export const SHIPPED_GOALS = parseGoalsFile(content);
