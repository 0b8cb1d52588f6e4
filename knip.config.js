/** What `knip` starts from besides what package.json and the configurations name, and what it cannot see in use. */
export default {
  entry: [
    'electron/{main,preload,start}.ts',
    // Processes and threads of their own, started by the name of their file.
    'electron/frames/server.ts',
    'core/sheet/still-worker.ts',
    'core/jobs/talk-worker.ts',
    'core/pose/pose-process.ts',
    'core/jobs/follow-worker.ts',
    'core/demo/paint-worker.ts',
    'core/files/probe-process.ts',
    'core/video/index/container-process.ts',
    'renderer/main.tsx',
    'tests/**/*.test.{ts,tsx}',
    'tests/**/children/*.ts',
    'tests/bench/in-page/*.ts',
    'tests/support/unguarded-app/main.js',
  ],
  project: ['{core,electron,renderer,tests}/**/*.{ts,tsx,js,mjs}', '!tests/support/layer-table.d.ts'],
  // An export that its own file uses as well is no dead code.
  ignoreExportsUsedInFile: true,
  // Read as files: by the pose model, the page, the compiler, a PDF.
  ignoreDependencies: ['@mediapipe/pose', 'axe-core', 'node-api-headers', '@expo-google-fonts/source-sans-3'],
  // Of the system; the tests that need them say so or install them.
  ignoreBinaries: ['perl', 'mkfifo', 'unshare', 'Xvfb', 'ffprobe', 'strace'],
};
