/** What a `clip:` address asks for. */
export interface FrameRequest {
  readonly clipId: string;
  readonly index: number;
}

const UUID = '[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}';
const FRAME_URL = new RegExp(`^clip://frame/(${UUID})/(0|[1-9][0-9]{0,8})$`);

/** Reads the address of a frame, or null when it is written in any other way than contract.ts says. */
export function parseFrameUrl(url: string): FrameRequest | null {
  const match = FRAME_URL.exec(url);
  if (match === null) return null;
  const [, clipId = '', index = ''] = match;
  return { clipId, index: Number(index) };
}
