import type { Migration } from '../migrate.ts';

/**
 * When a swing file brought a clip in, with another hand's marks on it: an instant of UTC, ISO 8601. What had been proposed on it
 * until then teaches nothing of this coach. null: the clip was added here, or brought in by a version that did not keep it.
 */
export const broughtClips: Migration = {
  version: 18,
  sql: 'ALTER TABLE clip ADD COLUMN brought TEXT;',
};
