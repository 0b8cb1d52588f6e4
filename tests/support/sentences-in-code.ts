import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';

const ROOT = join(import.meta.dirname, '..', '..');

/** Where something in the code is said: the file from the root on, and its line from 1. */
export interface Said {
  readonly words: string;
  readonly file: string;
  readonly line: number;
}

/** Every file of the program in TypeScript. */
export function programFiles(): readonly ts.SourceFile[] {
  return execFileSync(
    'git',
    ['ls-files', '--cached', '--others', '--exclude-standard', 'core', 'electron', 'renderer'],
    {
      cwd: ROOT,
      encoding: 'utf8',
    },
  )
    .split('\n')
    .filter((file) => /\.tsx?$/.test(file) && !file.endsWith('.d.ts'))
    .map((file) =>
      ts.createSourceFile(file, readFileSync(join(ROOT, file), 'utf8'), ts.ScriptTarget.ES2023, true, kindOf(file)),
    );
}

const kindOf = (file: string): ts.ScriptKind => (file.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS);

/** Calls `look` for every node of a file, outermost first; what it returns true for is not looked into. */
function walk(node: ts.Node, look: (node: ts.Node) => boolean): void {
  if (look(node)) return;
  ts.forEachChild(node, (child) => walk(child, look));
}

/** A text with numbers for what is put in: as a key is written. */
export function keyOf(text: ts.TemplateLiteral | ts.StringLiteral): string {
  if (!ts.isTemplateExpression(text)) return text.text;
  return text.head.text + text.templateSpans.map(({ literal }, at) => `{${String(at)}}${literal.text}`).join('');
}

const isMechanism = (tag: ts.Expression): boolean =>
  ts.isIdentifier(tag) && (tag.text === 'say' || tag.text === 'said');

function at(node: ts.Node, words: string): Said {
  const file = node.getSourceFile();
  return { words, file: file.fileName, line: file.getLineAndCharacterOfPosition(node.getStart()).line + 1 };
}

/** All sentences that are said by the mechanism. */
export function keysIn(file: ts.SourceFile): readonly Said[] {
  const keys: Said[] = [];
  walk(file, (node) => {
    if (ts.isTaggedTemplateExpression(node) && isMechanism(node.tag)) keys.push(at(node, keyOf(node.template)));
    return false;
  });
  return keys;
}

/** Attributes of the page that are no text for people. */
const NO_TEXT = new Set([
  ...['className', 'key', 'id', 'role', 'type', 'kind', 'look', 'side', 'size', 'd', 'viewBox', 'fill', 'stroke'],
  ...['href', 'src', 'inputMode', 'autoComplete', 'aria-live', 'strokeLinecap', 'transform', 'points', 'tool', 'value'],
  ...['picture', 'which', 'as', 'layout', 'aria-current', 'aria-hidden', 'textAnchor', 'accept', 'preserveAspectRatio'],
  ...[
    'scope',
    'slot',
    'validationBehavior',
    'orientation',
    'htmlFor',
    'pass',
    'way',
    'refX',
    'filterUnits',
    'quality',
    'pin',
    'dir',
    'placement',
    'aria-orientation',
    'step',
  ],
  ...['strokeLinejoin', 'result', 'in', 'in2', 'colorInterpolationFilters', 'tableValues', 'view', 'of', 'sizes'],
]);

/** Whether people would read words: two letters on end, other than units and signs of a format. */
function hasWords(text: string): boolean {
  const words = text.replace(/\{\d+\}/g, ' ').match(/[A-Za-z]{2,}/g) ?? [];
  return words.some((word) => !UNITS.has(word));
}
const UNITS = new Set(['px', 'cm', 'mm', 'kB', 'MB', 'GB', 'PNG', 'JPEG', 'PDF', 'Baybook', 'Electron', 'ffmpeg']);

/** A sentence, or a label of words: several words with a capital before or a full stop behind. */
const isSentence = (text: string): boolean =>
  /^\s*[A-Z“][a-z’']+[^_=;:<>/\\]* [^_=;<>\\]+/.test(text) || /[a-z] [a-z]+.*[.?!]\s*$/.test(text);

/**
 * What is said past the mechanism: text in the page and its labels, what an AppError says, and any other text that reads as a
 * sentence. Errors of ours (new Error) are for developers.
 */
export function unspokenIn(file: ts.SourceFile): readonly Said[] {
  const found: Said[] = [];
  const tell = (node: ts.Node, words: string): void => void found.push(at(node, words.trim().replaceAll(/\s+/g, ' ')));
  walk(file, (node) => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || ts.isTypeNode(node)) return true;
    if (ts.isTaggedTemplateExpression(node)) {
      ts.forEachChild(node.template, (child) => found.push(...(ts.isTemplateSpan(child) ? unspokenBelow(child) : [])));
      return true;
    }
    if (ts.isNewExpression(node) && /^(?:Type|Range)?Error$/.test(node.expression.getText())) return true;
    if (ts.isJsxText(node) && hasWords(node.text)) tell(node, node.text);
    if (ts.isJsxAttribute(node)) {
      if (NO_TEXT.has(node.name.getText()) || node.name.getText().startsWith('data-')) return true;
      if (node.initializer !== undefined && ts.isStringLiteral(node.initializer) && hasWords(node.initializer.text))
        tell(node, node.initializer.text);
    }
    if ((ts.isStringLiteral(node) || ts.isTemplateLiteral(node)) && isSentence(keyOf(node)) && hasWords(keyOf(node)))
      tell(node, keyOf(node));
    return false;
  });
  return found;

  function unspokenBelow(span: ts.TemplateSpan): readonly Said[] {
    const below: Said[] = [];
    walk(span.expression, (node) => {
      if (ts.isTaggedTemplateExpression(node)) return true;
      if ((ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) && isSentence(node.text))
        below.push(at(node, node.text));
      return false;
    });
    return below;
  }
}
