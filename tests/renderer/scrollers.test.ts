import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const RENDERER = join(import.meta.dirname, '..', '..', 'renderer');

/**
 * Words that are only heard are placed absolutely. In a box that scrolls and is not placed itself they do not scroll with it.
 * So they lie below its edge, and the page round it gets a second scroll bar.
 */
test('what scrolls holds what is placed in it', () => {
  const rules = globSync('**/*.css', { cwd: RENDERER }).flatMap((file) =>
    [...readFileSync(join(RENDERER, file), 'utf8').matchAll(/([^{}]*)\{([^{}]*)\}/g)].map(
      ([, name = '', body = '']) => ({
        name: `${file}: ${name.trim()}`,
        body,
      }),
    ),
  );
  const scrolling = rules.filter(({ body }) => /overflow(-[xy])?: (auto|scroll)/.test(body));
  expect(scrolling.length).toBeGreaterThan(10);
  expect(scrolling.filter(({ body }) => !/position: \w+/.test(body)).map(({ name }) => name)).toEqual([]);
});
