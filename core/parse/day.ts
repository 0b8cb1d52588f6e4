/**
 * A day of the Gregorian calendar from 1900 to 2999, written as ISO 8601 does: 2026-05-12. In this order: months of 31 days,
 * of 30 days, February, and 29 February of leap years. One expression, so that the JSON schema can hold it as well.
 */
export const DAY =
  /^(?:(?:19|2\d)\d\d-(?:(?:0[13578]|1[02])-(?:0[1-9]|[12]\d|3[01])|(?:0[469]|11)-(?:0[1-9]|[12]\d|30)|02-(?:0[1-9]|1\d|2[0-8]))|(?:19(?:0[48]|[2468][048]|[13579][26])|2\d(?:0[48]|[2468][048]|[13579][26])|(?:20|24|28)00)-02-29)$/;
