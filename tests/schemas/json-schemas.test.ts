import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { jsonSchemas } from './json-schemas.ts';

test('the schemas in resources are what the program parses by; npm run schemas writes them', async () => {
  for (const [file, text] of await jsonSchemas())
    expect(readFileSync(join(import.meta.dirname, '../../resources', file), 'utf8'), file).toBe(text);
});
