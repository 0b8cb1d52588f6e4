import type { FramesPortMessage } from '../frames/contract.ts';

/** Names of the routes between window and program. preload.ts and handle.ts use them, nothing else does. */

/** Window asks, program answers: (request name, input) -> Outcome. */
export const REQUEST_CHANNEL = 'baybook:request';
/** Program tells: JobReport. */
export const JOB_REPORT_CHANNEL = 'baybook:job-report';
/** Program tells: ClipSettled. */
export const CLIP_SETTLED_CHANNEL = 'baybook:clip-settled';
/** Program tells: whether the window is to close. */
export const WIND_UP_CHANNEL = 'baybook:wind-up';
/** Program tells: the frame server is not started again by itself. */
export const FRAMES_STOPPED_CHANNEL = 'baybook:frames-stopped';
/** preload.ts tells the path of a file that the coach really dropped or picked. The page itself cannot reach it. */
export const DROPPED_FILE_CHANNEL = 'baybook:dropped-file';
/** Program hands preload.ts a port to the frame server, which passes it on to the page under the same name. */
export const FRAMES_PORT_CHANNEL: FramesPortMessage = 'baybook:frames-port';

/** Begins the argument that tells the preload script the language, and with it the page. */
export const LANGUAGE_ARGUMENT = '--baybook-language=';
