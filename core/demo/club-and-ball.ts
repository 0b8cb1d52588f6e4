import type { Pose } from '../scene/swing-motion.ts';
import { add, along, between, cross, scale } from '../scene/vector.ts';
import { BALL, GLOVE, GRIP, IRON, SKIN, STEEL } from './clothes.ts';
import { egg, limbBetween, skinOver } from './surfaces.ts';
import type { Piece, Ring } from './surfaces.ts';

/** Lie: the sole is square to the shaft but for this angle; loft: how far the face leans back. Radians, a 7 iron's. */
const LIE = (28 * Math.PI) / 180;
const LOFT = (32 * Math.PI) / 180;

/** The club with the hands that hold it, the lead one gloved; sizes in metres. */
export function clubOf(pose: Pose): readonly Piece[] {
  const { gripEnd, head, shaft, face, toe } = pose.club;
  const out = add(scale(toe, Math.cos(LIE)), scale(shaft, Math.sin(LIE)));
  const up = cross(out, face);
  const rising = up.x * shaft.x + up.y * shaft.y + up.z * shaft.z > 0 ? scale(up, -1) : up;
  const blade = add(scale(rising, Math.cos(LOFT)), scale(face, -Math.sin(LOFT)));
  const thick = add(scale(face, Math.cos(LOFT)), scale(rising, Math.sin(LOFT)));
  const section = (aside: number, high: number, half: number): Ring => ({
    centre: along(along(head, out, aside), blade, high - 0.02),
    side: thick,
    front: blade,
    halfSide: half,
    halfFront: high,
  });
  const heel = along(along(head, out, -0.03), rising, 0.012);
  const neck = along(heel, shaft, -0.075);
  return [
    limbBetween(gripEnd, along(gripEnd, shaft, 0.27), [0.0145, 0.0135, 0.011], GRIP),
    limbBetween(along(gripEnd, shaft, 0.265), neck, [0.0075, 0.0062], STEEL),
    limbBetween(neck, heel, [0.0078, 0.0085], IRON),
    skinOver(
      [
        section(-0.043, 0.008, 0.005),
        section(-0.036, 0.014, 0.009),
        section(-0.01, 0.021, 0.01),
        section(0.018, 0.027, 0.01),
        section(0.036, 0.029, 0.009),
        section(0.044, 0.022, 0.006),
        section(0.047, 0.01, 0.003),
      ],
      IRON,
    ),
    ...hands(pose),
  ];
}

export function ballOf(pose: Pose, radius: number): Piece {
  const axes = { up: { x: 0, y: 1, z: 0 }, side: { x: 1, y: 0, z: 0 }, front: { x: 0, y: 0, z: 1 } };
  return egg(pose.ball, axes, { up: radius, side: radius, front: radius }, BALL);
}

function hands(pose: Pose): readonly Piece[] {
  const { club } = pose;
  return (['lead', 'trail'] as const)
    .map((which) => {
      const middle = which === 'lead' ? club.leadHand : club.trailHand;
      const wrist = which === 'lead' ? pose.leadWrist : pose.trailWrist;
      return [
        limbBetween(
          along(middle, club.shaft, -0.032),
          along(middle, club.shaft, 0.032),
          [0.03, 0.034, 0.03],
          which === 'lead' ? GLOVE : SKIN,
        ),
        limbBetween(wrist, between(wrist, middle, 0.8), [0.03, 0.033], which === 'lead' ? GLOVE : SKIN),
      ];
    })
    .flat();
}
