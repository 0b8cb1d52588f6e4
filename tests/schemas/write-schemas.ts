import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { jsonSchemas } from './json-schemas.ts';

/** `npm run schemas`: writes the JSON schemas of the file formats anew. */
for (const [file, text] of await jsonSchemas()) {
  writeFileSync(join(import.meta.dirname, '../../resources', file), text);
  console.log(`resources/${file}`);
}
