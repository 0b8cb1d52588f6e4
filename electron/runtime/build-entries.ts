/**
 * What the built program starts from, by the name of its file in out/main: the program, and what it starts as a thread or
 * as a process of its own. The builder is told of no other, and `npm start` builds again where one of them is missing.
 */
export const MAIN_ENTRIES = {
  main: 'electron/main.ts',
  'still-worker': 'core/sheet/still-worker.ts',
  'talk-worker': 'core/jobs/talk-worker.ts',
  'pose-process': 'core/pose/pose-process.ts',
  'follow-worker': 'core/jobs/follow-worker.ts',
  'paint-worker': 'core/demo/paint-worker.ts',
  'frame-server': 'electron/frames/server.ts',
  'probe-process': 'core/files/probe-process.ts',
  'container-process': 'core/video/index/container-process.ts',
} as const;

/** Every file that the program is started from, once it is built. */
export const BUILT_FILES: readonly string[] = [
  ...Object.keys(MAIN_ENTRIES).map((name) => `out/main/${name}.js`),
  'out/preload/preload.cjs',
  'out/renderer/index.html',
];
