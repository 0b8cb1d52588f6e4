import { readdirSync, readFileSync } from 'node:fs';
import { dirname, extname, join, posix } from 'node:path';
import ts from 'typescript';

/** One import, re-export or dynamic import that stands in a file of the project. */
export interface ProjectImport {
  /** The importing file, relative to the project, with '/'. */
  readonly file: string;
  /** As written, e.g. "../model/mark.ts" or "node:fs". */
  readonly specifier: string;
  /** The imported file, relative to the project; null for a package or a Node module. */
  readonly target: string | null;
  /** Whether all of it vanishes when types are taken away. */
  readonly typeOnly: boolean;
}

const CODE = new Set(['.ts', '.tsx', '.mts', '.cts', '.js', '.jsx', '.mjs', '.cjs']);
/** Fetched or made, not written by us. */
const NOT_OURS = new Set(['node_modules', 'out', 'dist', '.cache', '.git']);

/** Every file with code, relative to `root`, with '/', sorted. */
export function listCodeFiles(root: string, folder = ''): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true })
    .flatMap((entry) => {
      const path = posix.join(folder, entry.name);
      if (entry.isDirectory()) return NOT_OURS.has(entry.name) ? [] : listCodeFiles(root, path);
      return CODE.has(extname(entry.name)) ? [path] : [];
    })
    .sort();
}

/** All imports of one file, found by the compiler's own parser. A dynamic import of no fixed name throws. */
export function readImports(root: string, file: string): ProjectImport[] {
  const text = readFileSync(join(root, file), 'utf8');
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const found: ProjectImport[] = [];
  const add = (specifier: ts.Node | undefined, typeOnly: boolean): void => {
    if (specifier === undefined) return;
    if (!ts.isStringLiteralLike(specifier)) throw new Error(`${file} imports a name that is made up at run time.`);
    const name = specifier.text;
    // What follows a question mark tells the bundler what to make of the file.
    const [path = ''] = name.split('?');
    const target = name.startsWith('.') ? posix.join(dirname(file), path) : null;
    found.push({ file, specifier: name, target, typeOnly });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node))
      add(node.moduleSpecifier, node.importClause?.phaseModifier === ts.SyntaxKind.TypeKeyword);
    else if (ts.isExportDeclaration(node)) add(node.moduleSpecifier, node.isTypeOnly);
    else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) add(node.argument.literal, true);
    else if (ts.isCallExpression(node) && isImportCall(node)) add(node.arguments[0], false);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** `import(...)` or `require(...)`. A function that createRequire made goes by another name, on purpose, in core/video. */
function isImportCall(node: ts.CallExpression): boolean {
  const called = node.expression;
  return called.kind === ts.SyntaxKind.ImportKeyword || (ts.isIdentifier(called) && called.text === 'require');
}
