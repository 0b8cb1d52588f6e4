import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { demoStory } from '../core/demo/demo-story.ts';
import type { DemoStory } from '../core/demo/demo-story.ts';
import { GERMAN } from '../core/model/german.ts';
import shippedGoals from '../resources/goals.json' with { type: 'json' };
import { keysIn, programFiles, unspokenIn } from './support/sentences-in-code.ts';

/** The texts of a goals file: sentences and names, and no ids. */
function textsOf(goals: typeof shippedGoals): readonly string[] {
  return [
    ...[goals.name, goals.about],
    ...goals.wanted.flatMap(({ words, basis, miss }) => [words, basis, miss.low, miss.high]),
    ...goals.chains.flatMap((chain) => [
      chain.name,
      chain.leadsTo,
      chain.basis,
      ...chain.links.map(({ words }) => words),
    ]),
  ].filter((text) => text !== '');
}

/** What the invented coach of the demo wrote. */
function textsOfDemo({ lessons, pages }: DemoStory): readonly string[] {
  return [lessons.then, lessons.now]
    .flatMap(({ club, note }) => [club, note])
    .concat(
      [pages.then, pages.now].flatMap(({ findings, keyThoughts, drills, filmNext }) => [
        ...findings.map(({ words }) => words),
        ...keyThoughts,
        ...drills.flatMap(({ title, steps, counts, caution }) => [title, ...steps, counts, caution]),
        ...[filmNext.what, filmNext.how],
      ]),
    );
}

const SHIPPED = [...textsOf(shippedGoals), ...textsOfDemo(demoStory())];

const FOLDER = join(import.meta.dirname, '..', 'resources', 'languages', 'de');
const files = programFiles();
const keys = files.flatMap(keysIn);

/** What no coach reads in the window: the command line, what makes and runs the program, and what schemas of files say. */
const NOT_SPOKEN = new RegExp(
  [
    '^core/(cli|runtime|scene|geometry|demo|parse)/|^electron/(bare-machine|runtime)/|^electron/start.ts$',
    '^core/(swing-file/parse-swing-file|talk-file/parse-talk-file).ts$',
  ].join('|'),
);

describe('German', () => {
  test('has every sentence of the code', () => {
    const missing = keys.filter(({ words }) => !Object.hasOwn(GERMAN, words));
    expect(missing.map(({ file, words }) => `${file}: ${words}`)).toEqual([]);
  });

  test('has every text of the goals and of the demo that ship with the program', () => {
    expect(SHIPPED.filter((text) => !Object.hasOwn(GERMAN, text))).toEqual([]);
    // It looks at all of them.
    expect(SHIPPED.length).toBeGreaterThan(40);
  });

  test('has no sentence that nobody says, and none in two files', () => {
    const said = new Set([...keys.map(({ words }) => words), ...SHIPPED]);
    expect(Object.keys(GERMAN).filter((key) => !said.has(key))).toEqual([]);
    const all = readdirSync(FOLDER).flatMap((name) =>
      Object.keys(JSON.parse(readFileSync(join(FOLDER, name), 'utf8')) as Record<string, string>),
    );
    expect(all.filter((key, place) => all.indexOf(key) !== place)).toEqual([]);
  });

  test('puts in what English puts in, and keeps the spaces at the ends', () => {
    const placesOf = (text: string) => (text.match(/\{\d+\}/g) ?? []).toSorted();
    const ends = (text: string) => [/^\s*/.exec(text)?.[0], /\s*$/.exec(text)?.[0]];
    for (const [english, german] of Object.entries(GERMAN)) {
      expect(placesOf(german), english).toEqual(placesOf(english));
      expect(ends(german), english).toEqual(ends(english));
      expect(german.trim(), english).not.toBe('');
    }
  });
});

describe('what is told', () => {
  test('is told by the mechanism, in the window and in all that a coach or a student reads', () => {
    const spoken = files.filter(({ fileName }) => !NOT_SPOKEN.test(fileName));
    const past = spoken.flatMap(unspokenIn).filter(({ file, words }) => !isAllowed(file, words));
    expect(past.map(({ file, line, words }) => `${file}:${String(line)}: ${words}`)).toEqual([]);
  });
});

/** What reads as a sentence and is none for people, by file and how it begins. */
const ALLOWED: readonly (readonly [file: string, begins: string])[] = [
  // What a system says of a file, to find its code by.
  ...[
    ...['No space left', 'Disk quota', 'File too large', 'Permission denied', 'Read-only file', 'No such file'],
    ...['Not a directory', 'Is a directory', 'File name too long'],
  ].map((begins) => ['core/files/file-trouble.ts', begins] as const),
  // What ffmpeg says, and what a printer's driver does.
  ['electron/printer.ts', 'Print job canceled'],
  ['core/video/index/clip-source.ts', 'Input #0'],
  // The name of a typeface.
  ['core/painting/styles.ts', 'Source Sans 3'],
  // For whoever looks into a log, at a list of processes or into a folder.
  ['electron/fault-log.ts', 'Baybook could not write its log'],
  ['electron/frame-server.ts', 'Baybook frames'],
  ['electron/kept-changes.ts', 'Baybook changes'],
  ['electron/window-files.ts', 'There is no such file.'],
];

function isAllowed(file: string, words: string): boolean {
  return ALLOWED.some(([where, begins]) => file === where && words.startsWith(begins));
}
