import type * as v from 'valibot';

type Issue = v.BaseIssue<unknown>;

/** Field as a programmer would write it: clips[0].marks[2].points.ball.x; `whole` when it is the value itself. */
function fieldOf(issue: Issue, whole: string): string {
  const steps = issue.path ?? [];
  if (steps.length === 0) return whole;
  return steps
    .map(({ key }, depth) => (typeof key === 'number' ? `[${String(key)}]` : `${depth === 0 ? '' : '.'}${String(key)}`))
    .join('');
}

const RULES: Readonly<Record<string, string>> = {
  string: 'must be text',
  number: 'must be a number',
  boolean: 'must be true or false',
  array: 'must be a list',
  strict_object: 'must be an object',
  record: 'must be an object',
};

function ruleOf(issue: Issue): string {
  const missing = issue.input === undefined && issue.kind === 'schema';
  if (issue.expected === 'never') return 'is not a known field';
  if (missing) return 'is missing';
  // A message of our own completes the sentence; those of valibot start with "Invalid".
  if (!issue.message.startsWith('Invalid')) return issue.message;
  const known = RULES[issue.type];
  if (known !== undefined && issue.expected !== null && !issue.expected.startsWith('(')) return known;
  return `must be ${(issue.expected ?? 'something else')
    .replace(/^\(|\)$/g, '')
    .replaceAll(' | ', ' or ')
    .replaceAll('"', '')}`;
}

/**
 * The first thing that is wrong, as the main part of a sentence without its full stop: "lesson.date must be a real
 * day, written like 2026-05-12". `whole` names the value for the case that it is wrong as a whole.
 */
export function firstTrouble(issues: readonly [Issue, ...Issue[]], whole: string): string {
  return `${fieldOf(issues[0], whole)} ${ruleOf(issues[0])}`;
}
