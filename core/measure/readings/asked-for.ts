import type { Goals } from '../../model/goals.ts';
import { sameReading } from '../../model/reading.ts';
import type { MissingReading, ReadingKey } from '../../model/reading.ts';
import type { MarkedSwing } from '../../model/swing.ts';
import { whyWithdrawn } from '../catalogue/where-read.ts';
import { keyOfLink } from '../goals/chain.ts';
import { missing } from './missing.ts';

/**
 * Readings that the coach asks for and that are no longer made: chosen for the stills, or links of a chain. They stand among
 * the missing ones and say why, each once; nobody is left to look for a frame or a point that would not help.
 */
export function withdrawnAskedFor(
  { pins = [], clips }: Pick<MarkedSwing, 'pins' | 'clips'>,
  { chains }: Pick<Goals, 'chains'>,
): readonly MissingReading[] {
  const asked: readonly ReadingKey[] = [...pins, ...chains.flatMap(({ links }) => links.map(keyOfLink))];
  return asked
    .filter((key, i) => asked.findIndex((other) => sameReading(other, key)) === i)
    .filter((key) => clips.some(({ view }) => view === key.view) && whyWithdrawn(key) !== null)
    .map(({ id, aspect, view, checkpoint }) => missing({ id, aspect, view, checkpoint }, 'withdrawn'));
}
