import type { Migration } from '../migrate.ts';

/** Checkpoints that were named again in a repeat check: JSON, as in core/model/repeat-check.ts. */
export const namings: Migration = {
  version: 12,
  sql: `ALTER TABLE repeat_check ADD COLUMN namings TEXT NOT NULL DEFAULT '[]';`,
};
