import * as v from 'valibot';

/** An instant of UTC as `Date.toISOString` writes it, of a day that there is. */
export const instant = v.pipe(
  v.string('must be text'),
  v.regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/, 'must be an instant, written like 2026-05-12T09:30:00.000Z'),
  v.check((text) => {
    const time = Date.parse(text);
    // The 31st of a shorter month is read as the day after.
    return Number.isFinite(time) && new Date(time).toISOString() === text;
  }, 'must be an instant that there is'),
);
