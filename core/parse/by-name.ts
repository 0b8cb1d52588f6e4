import * as v from 'valibot';

/** valibot's record passes over these without a word; a surplus field must be refused whatever its name. */
const PASSED_OVER = ['__proto__', 'prototype', 'constructor'];

/** An object that has some of the given names as fields, and no others. */
export function byName<const Name extends string, Value extends v.GenericSchema>(names: readonly Name[], value: Value) {
  return v.pipe(
    v.unknown(),
    v.check((input) => !Array.isArray(input), 'must be an object'),
    v.check(
      (input) => typeof input !== 'object' || input === null || !PASSED_OVER.some((name) => Object.hasOwn(input, name)),
      'has a field that is not known',
    ),
    v.record(v.picklist(names), value),
  );
}
