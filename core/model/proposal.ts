import type { FrameSpan } from './frame.ts';

/** A frame that may bear a name, and how sure that is. */
export interface ProposedFrame {
  readonly frame: number;
  readonly sure: boolean;
  /** What it was found by, in a few words for the coach. */
  readonly by: string;
}

/** The checkpoints that are proposed, each a frame of the clip. Nothing of it counts until a coach has said so. */
export interface ProposedSwing {
  readonly address: ProposedFrame;
  /** Null where the club is not seen well enough. */
  readonly takeaway: ProposedFrame | null;
  readonly top: ProposedFrame;
  readonly impact: ProposedFrame;
}

/** Why nothing is proposed: no swing is seen, or the picture moves all the time, as with a camera in the hand. */
export type NoProposal = 'nothing swings' | 'all moves';

/** A swing of a long clip, by the frame at which a ball may have been struck. */
export interface FoundSwing {
  /** The last frame with the ball at rest, within a few; without a ball that of most motion. */
  readonly impact: number;
  /** A ball was seen to go. */
  readonly seen: boolean;
  /** A strike was heard with it. */
  readonly heard: boolean;
}

/** Such a swing with the frames to keep of it. */
export interface SwingOfClip extends FoundSwing {
  readonly span: FrameSpan;
}
