import type { BodyPointId } from '../../model/body-points.ts';

const IN_SIGHT: ReadonlySet<BodyPointId> = new Set<BodyPointId>([
  ...(['lead-heel', 'lead-toe', 'trail-heel', 'trail-toe', 'grip-end', 'clubhead', 'ball'] as const),
]);

/** What stands free on the ground or in the hands is where it is seen; joints lie under clothes and skin. */
export function isOfOpinion(point: BodyPointId): boolean {
  return !IN_SIGHT.has(point);
}
