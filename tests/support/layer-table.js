/**
 * The one table of which folder may import what. ESLint enforces it on each import, tests/layers.test.ts fails on a
 * folder that is not in it, and DEVELOPERS.md prints it for people.
 *
 * `folders`: project folders whose files may be imported. `packages`: registry packages allowed (a prefix match on the
 * package name). `node`: whether Node's own modules are allowed. The pure layers run anywhere: they may use no package,
 * no Node module, no DOM, no clock and no randomness.
 */
const PURE = { packages: [], node: false, pure: true };

/** What the window takes from outside itself: pure core, and the words it has with the program. */
const WINDOW_CORE = [
  ...['core/model', 'core/time', 'core/geometry', 'core/measure', 'core/shapes', 'core/compare', 'core/report'],
  ...['core/painting', 'core/talk', 'core/film'],
  ...['electron/ipc/contract', 'electron/frames/contract'],
];
/** The window's rooms, one a feature, and of which other rooms each shows something. The shell shows them all. */
const FEATURES = {
  book: ['shell', 'swing'],
  'add-clip': ['shell', 'swing'],
  swing: ['shell'],
  sheet: ['shell', 'swing', 'add-clip'],
  bench: ['shell', 'swing', 'goals'],
  compare: ['shell', 'swing', 'bench'],
  goals: [],
  'lesson-page': ['shell', 'swing', 'bench'],
  talk: ['shell', 'swing', 'bench'],
  repeat: ['shell', 'swing', 'bench'],
};
/** What a room knows and does draws nothing and imports no view. */
const STATE_ROOMS = [
  'shell',
  'book',
  'swing',
  'sheet',
  'bench',
  'bench/playback',
  'compare',
  'goals',
  'lesson-page',
  'talk',
  'repeat',
].map((name) => `renderer/${name}/state`);
/** What every room may draw with. */
const ANY_ROOM = ['renderer', 'renderer/controls', 'renderer/canvas', 'renderer/tools', ...STATE_ROOMS, ...WINDOW_CORE];
const VIEWS = Object.keys(FEATURES).map((name) => `renderer/${name}`);

/** @type {Record<string, { folders: string[], packages: string[], node: boolean, pure?: boolean }>} */
export const LAYERS = {
  'core/model': { ...PURE, folders: [] },
  'core/time': { ...PURE, folders: ['core/model'] },
  'core/geometry': { ...PURE, folders: ['core/model', 'core/time'] },
  'core/measure': { ...PURE, folders: ['core/model', 'core/time', 'core/geometry'] },
  'core/shapes': { ...PURE, folders: ['core/model', 'core/time', 'core/geometry', 'core/measure'] },
  'core/compare': { ...PURE, folders: ['core/model', 'core/time', 'core/geometry', 'core/measure', 'core/shapes'] },
  'core/report': {
    ...PURE,
    folders: ['core/model', 'core/time', 'core/geometry', 'core/measure', 'core/shapes', 'core/compare'],
  },
  'core/scene': { ...PURE, folders: ['core/model', 'core/time', 'core/geometry'] },
  'core/painting': {
    ...PURE,
    folders: ['core/model', 'core/time', 'core/geometry', 'core/measure', 'core/shapes', 'core/compare', 'core/report'],
  },
  'core/propose': { ...PURE, folders: ['core/model'] },
  'core/pose': {
    folders: ['core/model', 'core/files', 'core/propose'],
    packages: ['@litertjs/core'],
    node: true,
  },
  'core/talk': { ...PURE, folders: ['core/model'] },
  'core/film': {
    ...PURE,
    folders: ['core/model', 'core/geometry', 'core/painting', 'core/report', 'core/talk'],
  },
  'core/runtime': { folders: ['core/model'], packages: [], node: true },
  'core/video': {
    folders: ['core/model', 'core/time', 'core/geometry', 'core/files'],
    packages: ['fluent-ffmpeg', 'ffmpeg-static', '@ffmpeg-installer/ffmpeg', 'lru-cache'],
    node: true,
  },
  // Checks of what comes from outside (valibot): runs anywhere, hence no Node.
  'core/parse': { folders: ['core/model', 'core/time'], packages: ['valibot'], node: false },
  // Reading and writing whole files, and what a file system says as sentences.
  'core/files': { folders: ['core/model'], packages: [], node: true },
  'core/book': {
    folders: ['core/model', 'core/time', 'core/parse', 'core/files'],
    packages: ['better-sqlite3', 'valibot'],
    node: true,
  },
  'core/swing-file': {
    folders: ['core/model', 'core/time', 'core/parse', 'core/files'],
    packages: ['valibot'],
    node: true,
  },
  'core/goals-file': {
    folders: ['core/model', 'core/parse', 'core/files'],
    packages: [],
    node: true,
  },
  'core/talk-file': {
    folders: ['core/model', 'core/parse', 'core/files', 'core/swing-file'],
    packages: ['valibot'],
    node: true,
  },
  'core/sheet': {
    folders: [
      'core/model',
      'core/time',
      'core/geometry',
      'core/measure',
      'core/compare',
      'core/report',
      'core/painting',
      'core/film',
      'core/talk',
      'core/files',
    ],
    packages: ['@napi-rs/canvas', '@fontsource/source-sans-3', '@expo-google-fonts/source-sans-3', '@jsquash/jpeg'],
    node: true,
  },
  // What a lesson sends: the page as PDF, the mail as a draft.
  'core/lesson-page': {
    folders: [
      'core/model',
      'core/time',
      'core/geometry',
      'core/measure',
      'core/shapes',
      'core/compare',
      'core/report',
      'core/files',
    ],
    packages: ['pdfkit', 'nodemailer', '@expo-google-fonts/source-sans-3'],
    node: true,
  },
  'core/demo': {
    folders: ['core/model', 'core/time', 'core/geometry', 'core/scene', 'core/video'],
    packages: ['@napi-rs/canvas'],
    node: true,
  },
  'core/jobs': {
    folders: [
      'core/model',
      'core/time',
      'core/parse',
      'core/files',
      'core/geometry',
      'core/measure',
      'core/compare',
      'core/report',
      'core/scene',
      'core/propose',
      'core/pose',
      'core/painting',
      'core/film',
      'core/talk',
      'core/talk-file',
      'core/video',
      'core/book',
      'core/swing-file',
      'core/sheet',
      'core/lesson-page',
      'core/demo',
    ],
    packages: [],
    node: true,
  },
  'core/cli': {
    folders: [
      'core/model',
      'core/time',
      'core/parse',
      'core/files',
      'core/geometry',
      'core/measure',
      'core/compare',
      'core/report',
      'core/painting',
      'core/talk',
      'core/talk-file',
      'core/runtime',
      'core/video',
      'core/book',
      'core/swing-file',
      'core/goals-file',
      'core/sheet',
      'core/lesson-page',
      'core/demo',
      'core/jobs',
    ],
    packages: [],
    node: true,
  },
  electron: {
    folders: [
      'electron/ipc',
      'electron/frames',
      'electron/runtime',
      'core/runtime',
      'core/model',
      'core/time',
      'core/measure',
      'core/parse',
      'core/files',
      'core/video',
      'core/book',
      'core/swing-file',
      'core/sheet',
      'core/jobs',
      'core/cli',
    ],
    packages: ['electron', 'valibot', 'lru-cache'],
    node: true,
  },
  /** The frame server, a process of its own: makes, keeps and carries pictures of clips. */
  'electron/frames': {
    folders: ['core/model', 'core/time', 'core/video'],
    packages: ['electron'],
    node: true,
  },
  /** Gets an Electron that runs; loaded by the start command and the tests, never by the program itself. */
  'electron/runtime': {
    folders: ['core/model', 'core/runtime', 'core/video', 'electron/bare-machine'],
    packages: [],
    node: true,
  },
  /**
   * Scaffolding, and nothing else: an Electron, a SQLite and system packages for machines that cannot reach Electron's own
   * download or were never set up. It is not in the built program, and can go where every machine has what it needs.
   */
  'electron/bare-machine': {
    folders: ['core/model', 'core/runtime', 'electron/runtime/run-command'],
    packages: ['@electron/fuses'],
    node: true,
  },
  'electron/ipc': {
    folders: [
      'electron/frames/contract',
      'core/model',
      'core/time',
      'core/parse',
      'core/measure',
      'core/compare',
      'core/report',
      'core/files',
      'core/video',
      'core/book',
      'core/swing-file',
      'core/goals-file',
      'core/talk',
      'core/talk-file',
      'core/jobs',
    ],
    packages: ['electron', 'valibot'],
    node: true,
  },
  renderer: {
    folders: [...ANY_ROOM, 'renderer/shell', ...VIEWS],
    packages: ['react', 'react-dom', 'react-aria-components', '@fontsource/source-sans-3'],
    node: false,
  },
  ...Object.fromEntries(
    STATE_ROOMS.map((name) => [
      name,
      { folders: ['renderer', 'renderer/tools', ...STATE_ROOMS, ...WINDOW_CORE], packages: ['react'], node: false },
    ]),
  ),
  'renderer/canvas': {
    folders: [...STATE_ROOMS, 'renderer/tools', ...WINDOW_CORE],
    packages: ['fabric', 'react', 'lru-cache'],
    node: false,
  },
  'renderer/tools': { folders: ['core/model', 'core/geometry', 'core/shapes'], packages: [], node: false },
  'renderer/controls': view([]),
  'renderer/shell': view(VIEWS),
  ...Object.fromEntries(
    Object.entries(FEATURES).map(([name, shown]) => [
      `renderer/${name}`,
      view(shown.map((each) => `renderer/${each}`)),
    ]),
  ),
  // What is printed are the pages of the PDF.
  'renderer/lesson-page': view(
    FEATURES['lesson-page'].map((each) => `renderer/${each}`),
    ['pdfjs-dist'],
  ),
};

/**
 * @param {string[]} rooms of which it shows something
 * @param {string[]} packages besides those of every view
 */
function view(rooms, packages = []) {
  return { folders: [...ANY_ROOM, ...rooms], packages: ['react', 'react-aria-components', ...packages], node: false };
}

/** Folders under no layer rule: tests may import anything, resources hold no code. */
export const FREE = ['tests'];

/**
 * The layer a file belongs to: the longest listed folder that contains it, or null. `path` is relative, with '/'.
 * @param {string} path
 */
export function layerOf(path) {
  const folders = Object.keys(LAYERS).filter((folder) => path.startsWith(folder + '/'));
  folders.sort((a, b) => b.length - a.length);
  return folders[0] ?? null;
}
