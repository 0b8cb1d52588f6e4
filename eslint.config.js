import { dirname, relative, resolve } from 'node:path';
import { builtinModules } from 'node:module';
import js from '@eslint/js';
import tseslint from 'typescript-eslint';
import reactHooks from 'eslint-plugin-react-hooks';
import { LAYERS, layerOf } from './tests/support/layer-table.js';

const root = import.meta.dirname;
const nodeModules = new Set(builtinModules);

/** Refuses an import that tests/support/layer-table.js does not allow to the importing file's folder. */
const layerRule = {
  meta: { type: 'problem', schema: [] },
  create(context) {
    const file = relative(root, context.filename).replaceAll('\\', '/');
    const layer = layerOf(file);
    if (layer === null) return {};
    const allowed = LAYERS[layer];
    const check = (node, typeOnly) => {
      const source = node.source?.value;
      if (typeof source !== 'string') return;
      if (source.startsWith('.')) {
        const target = relative(root, resolve(dirname(context.filename), source)).replaceAll('\\', '/');
        const targetLayer = layerOf(target);
        if (targetLayer === layer || target === 'package.json' || target.startsWith('resources/')) return;
        const named = allowed.folders.some((folder) => targetLayer === folder || target.startsWith(folder + '.'));
        if (!named) context.report({ node, message: `${layer} may not import from ${targetLayer ?? target}.` });
        if (targetLayer?.startsWith('electron/') && layer.startsWith('renderer') && !typeOnly)
          context.report({ node, message: 'The window may import only types from the contract.' });
        return;
      }
      const bare = source.replace(/^node:/, '');
      if (source.startsWith('node:') || nodeModules.has(bare)) {
        if (!allowed.node) context.report({ node, message: `${layer} may not use Node modules (${source}).` });
        return;
      }
      if (!allowed.packages.some((name) => source === name || source.startsWith(name + '/')))
        context.report({ node, message: `${layer} may not import the package ${source}.` });
    };
    return {
      ImportDeclaration: (node) => check(node, node.importKind === 'type'),
      ImportExpression: (node) => check(node, false),
      ExportNamedDeclaration: (node) => check(node, node.exportKind === 'type'),
      ExportAllDeclaration: (node) => check(node, node.exportKind === 'type'),
    };
  },
};

const pureFolders = Object.entries(LAYERS)
  .filter(([, rule]) => rule.pure)
  .map(([folder]) => `${folder}/**/*.ts`);

export default tseslint.config(
  { ignores: ['node_modules', 'out', 'dist', '.cache'] },
  js.configs.recommended,
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: {
      parserOptions: {
        projectService: { allowDefaultProject: ['electron.vite.config.ts', 'vitest.config.ts'] },
        tsconfigRootDir: root,
      },
    },
    rules: {
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      // What was caught is handed on as it came; to these rules an unknown that is not null is no error.
      '@typescript-eslint/only-throw-error': 'off',
      '@typescript-eslint/prefer-promise-reject-errors': [
        'error',
        { allowThrowingUnknown: true, allowThrowingAny: true },
      ],
      // There are no enums (erasableSyntaxOnly), and what is private here makes a class like no other: these two only take time.
      '@typescript-eslint/no-unsafe-enum-assignment': 'off',
      '@typescript-eslint/no-unsafe-class-instance-assignment': 'off',
      // It takes for settled what a callback or an abort changes meanwhile.
      '@typescript-eslint/no-unnecessary-condition': 'off',
      // `void` before the last expression says that its value is dropped on purpose, whatever its type.
      '@typescript-eslint/no-meaningless-void-operator': 'off',
      // What comes over a channel takes its type from whoever listens.
      '@typescript-eslint/no-unnecessary-type-parameters': 'off',
      // An arrow that hands a call's nothing on is how most callbacks here are written.
      '@typescript-eslint/no-confusing-void-expression': 'off',
      // A method may be async because its interface promises, and so that what it throws rejects.
      '@typescript-eslint/require-await': 'off',
      // Methods here are closures of plain objects; none of those that are handed on uses `this`.
      '@typescript-eslint/unbound-method': 'off',
      // Texts are taken apart by code points on purpose; their graphemes stay whole where they are wrapped.
      '@typescript-eslint/no-misused-spread': 'off',
      // The canvas's own getters and setters, of which we name the half that is used.
      '@typescript-eslint/related-getter-setter-pairs': 'off',
    },
  },
  {
    files: ['tests/**/*.{ts,tsx}'],
    rules: {
      // Matchers, pages and a library without whole types hand over `any`; what a test then asserts is the check.
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
    },
  },
  { files: ['**/*.{js,mjs}'], ...tseslint.configs.disableTypeChecked },
  {
    languageOptions: { globals: { process: 'readonly', console: 'readonly', URL: 'readonly', Buffer: 'readonly' } },
    plugins: { baybook: { rules: { layers: layerRule } }, 'react-hooks': reactHooks },
    rules: {
      'baybook/layers': 'error',
      'react-hooks/rules-of-hooks': 'error',
      'react-hooks/exhaustive-deps': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-non-null-assertion': 'error',
      'no-undef': 'off',
      eqeqeq: 'error',
    },
  },
  {
    files: pureFolders,
    rules: {
      'no-restricted-globals': ['error', 'Date', 'performance', 'window', 'document', 'process', 'Buffer', 'fetch'],
      'no-restricted-properties': ['error', { object: 'Math', property: 'random' }],
    },
  },
  {
    files: ['electron/**/*.ts'],
    ignores: ['electron/ipc/handle.ts'],
    rules: {
      'no-restricted-imports': [
        'error',
        { paths: [{ name: 'electron', importNames: ['ipcMain'], message: 'Only electron/ipc/handle.ts listens.' }] },
      ],
    },
  },
  {
    files: ['renderer/**/*.{ts,tsx}'],
    ignores: ['renderer/canvas/stage.ts'],
    rules: { 'no-restricted-imports': ['error', { paths: ['fabric'] }] },
  },
);
