import { existsSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { MAIN_ENTRIES } from '../electron/runtime/build-entries.ts';
import { FREE, LAYERS, layerOf } from './support/layer-table.js';
import { listCodeFiles, readImports, type ProjectImport } from './support/project-imports.ts';

/** Holds the project against tests/support/layer-table.js. No line of a file can switch it off, as it could a rule of lint. */

const root = join(import.meta.dirname, '..');
const files = listCodeFiles(root);
const isFree = (file: string): boolean => FREE.some((folder) => file.startsWith(`${folder}/`));
const isAtTop = (file: string): boolean => !file.includes('/');
const layered = files.filter((file) => !isFree(file) && !isAtTop(file));
const imports = layered.flatMap((file) => readImports(root, file));
const describe = ({ file, specifier }: ProjectImport): string => `${file} imports ${specifier}`;

test('every folder with code is named in the table', () => {
  expect(layered.filter((file) => layerOf(file) === null)).toEqual([]);
});

test('every folder in the table holds code', () => {
  expect(Object.keys(LAYERS).filter((layer) => !layered.some((file) => layerOf(file) === layer))).toEqual([]);
});

test('at the top stand only the configurations that tools look for there', () => {
  expect(files.filter(isAtTop).filter((file) => !/^[a-z.]+\.config\.(js|ts)$/.test(file))).toEqual([]);
});

test('a file imports only what its folder may', () => {
  expect(imports.filter((found) => !mayImport(found)).map(describe)).toEqual([]);
});

test('every import of an own file names a file that is there, with its ending', () => {
  const broken = imports.filter(({ target }) => target !== null && !existsSync(join(root, target)));
  expect(broken.map(describe)).toEqual([]);
});

test('the window takes only types from the shell', () => {
  const values = imports.filter(
    ({ file, target, typeOnly }) => file.startsWith('renderer/') && target?.startsWith('electron/') && !typeOnly,
  );
  expect(values.map(describe)).toEqual([]);
});

test('fabric is imported in renderer/canvas/stage.ts alone', () => {
  expect(importersOf('fabric').filter((file) => file !== 'renderer/canvas/stage.ts')).toEqual([]);
});

test('electron is imported in electron/ alone', () => {
  expect(importersOf('electron').filter((file) => !file.startsWith('electron/'))).toEqual([]);
});

test('what only a bare machine needs is loaded by nothing that is built', () => {
  const built = new Set<string>([...Object.values(MAIN_ENTRIES), 'electron/preload.ts', 'renderer/main.tsx']);
  for (const file of built)
    for (const { target, typeOnly } of imports.filter((found) => found.file === file))
      if (target !== null && !typeOnly) built.add(target);
  expect(built.size).toBeGreaterThan(200);
  expect([...built].filter((file) => file.startsWith('electron/bare-machine/'))).toEqual([]);
});

test('lint keeps clocks and chance out of just the pure folders', () => {
  const named = /"core\/\{(?<names>[a-z,]+)\}\/\*\*\/\*\.ts"/.exec(readFileSync(join(root, '.oxlintrc.json'), 'utf8'));
  const pure = Object.keys(LAYERS).filter((layer) => LAYERS[layer]?.pure);
  expect(named?.groups?.['names']?.split(',').map((name) => `core/${name}`)).toEqual(pure);
});

test('pure folders use no package and no Node module', () => {
  const pure = imports.filter(({ file }) => LAYERS[layerOf(file) ?? '']?.pure);
  expect(pure.filter(({ target }) => target === null).map(describe)).toEqual([]);
});

function mayImport({ file, specifier, target }: ProjectImport): boolean {
  const layer = layerOf(file) ?? '';
  const rule = LAYERS[layer];
  if (rule === undefined) return false;
  if (target === null) {
    const isNode = specifier.startsWith('node:') || builtinModules.includes(specifier);
    return isNode ? rule.node : rule.packages.some((name) => isWithinPackage(specifier, name));
  }
  if (target === 'package.json' || target.startsWith('resources/')) return true;
  const targetLayer = layerOf(target);
  // The table names a folder, or a single file without its ending.
  return targetLayer === layer || rule.folders.some((name) => name === targetLayer || target === `${name}.ts`);
}

function importersOf(name: string): string[] {
  return imports.filter(({ specifier }) => isWithinPackage(specifier, name)).map(({ file }) => file);
}

function isWithinPackage(specifier: string, name: string): boolean {
  return specifier === name || specifier.startsWith(`${name}/`);
}
