import react from '@vitejs/plugin-react';
import { defineConfig } from 'electron-vite';
import { MAIN_ENTRIES } from './electron/runtime/build-entries.ts';

/**
 * The floor that the built code runs on is the carried Electron 33 (Node 20.18, Chromium 130), also where the pinned one
 * is taken. Packages stay outside of main.js and are read from node_modules at run time: some are native, and one rule
 * for all is easier to trust. The window gets everything bundled, for it may load nothing else.
 */
export default defineConfig({
  main: {
    build: {
      outDir: 'out/main',
      target: 'node20.18',
      // All files two folders deep, like core's own folders: paths from import.meta.dirname to resources/, and to the
      // entries of a worker thread and of a process beside whoever starts them, stay right.
      rolldownOptions: {
        input: MAIN_ENTRIES,
        output: { format: 'es', entryFileNames: '[name].js', chunkFileNames: '[name]-[hash].js' },
      },
    },
  },
  preload: {
    build: {
      outDir: 'out/preload',
      target: 'node20.18',
      // A sandboxed preload script can load no file beside it, and no ES module.
      rolldownOptions: {
        input: 'electron/preload.ts',
        output: { format: 'cjs', entryFileNames: 'preload.cjs', codeSplitting: false },
      },
    },
  },
  renderer: {
    root: 'renderer',
    plugins: [react()],
    build: {
      outDir: 'out/renderer',
      target: 'chrome130',
      rolldownOptions: { input: 'renderer/index.html' },
    },
  },
});
