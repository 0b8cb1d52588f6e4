import type { BodyPointId } from '../model/body-points.ts';

/** The lines between body points that readings are taken from. Drawn when both ends are placed. */
export const STICKS = [
  { id: 'spine', from: 'tailbone', to: 'neck-base' },
  { id: 'neck', from: 'neck-base', to: 'head-centre' },
  { id: 'shoulder-line', from: 'lead-shoulder', to: 'trail-shoulder' },
  { id: 'hip-line', from: 'lead-hip', to: 'trail-hip' },
  { id: 'lead-upper-arm', from: 'lead-shoulder', to: 'lead-elbow' },
  { id: 'trail-upper-arm', from: 'trail-shoulder', to: 'trail-elbow' },
  { id: 'lead-forearm', from: 'lead-elbow', to: 'grip-end' },
  { id: 'trail-forearm', from: 'trail-elbow', to: 'grip-end' },
  { id: 'lead-thigh', from: 'lead-hip', to: 'lead-knee' },
  { id: 'trail-thigh', from: 'trail-hip', to: 'trail-knee' },
  { id: 'lead-shank', from: 'lead-knee', to: 'lead-ankle' },
  { id: 'trail-shank', from: 'trail-knee', to: 'trail-ankle' },
  { id: 'lead-foot', from: 'lead-heel', to: 'lead-toe' },
  { id: 'trail-foot', from: 'trail-heel', to: 'trail-toe' },
  { id: 'shaft', from: 'grip-end', to: 'clubhead' },
] as const satisfies readonly { id: string; from: BodyPointId; to: BodyPointId }[];
export type StickId = (typeof STICKS)[number]['id'];
