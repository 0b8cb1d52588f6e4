import type { Migration } from '../migrate.ts';

/**
 * Which students are children, and for which lessons the coach has confirmed consent: 0 or 1, and no age. With this version
 * edits may also be of a consent, which programs up to version 13 cannot read.
 */
export const children: Migration = {
  version: 14,
  sql: `
    ALTER TABLE student ADD COLUMN child INTEGER NOT NULL DEFAULT 0 CHECK (child IN (0, 1));
    ALTER TABLE lesson ADD COLUMN consent INTEGER NOT NULL DEFAULT 0 CHECK (consent IN (0, 1));
  `,
};
