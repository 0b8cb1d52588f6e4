/** Places within a JSON value, for tests that put something wrong into each. */

export type Path = readonly (string | number)[];

/** Every place within a JSON value, the whole first. */
export function placesIn(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  const inner = Array.isArray(value)
    ? value.flatMap((item: unknown, index) => placesIn(item, [...path, index]))
    : Object.entries(value).flatMap(([key, item]) => placesIn(item, [...path, key]));
  return [path, ...inner];
}

/** A copy with the value at `path` replaced (or, with `undefined`, left out). */
export function changed(value: unknown, path: Path, to: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return to;
  if (Array.isArray(value)) {
    const list: unknown[] = value;
    return list.flatMap((item, index) =>
      index !== step ? [item] : rest.length === 0 && to === undefined ? [] : [changed(item, rest, to)],
    );
  }
  return Object.fromEntries(
    Object.entries(Object(value)).flatMap(([key, item]): [string, unknown][] => {
      if (key !== String(step)) return [[key, item]];
      return rest.length === 0 && to === undefined ? [] : [[key, changed(item, rest, to)]];
    }),
  );
}

/** The value at a place. */
export const at = (value: unknown, path: Path): unknown =>
  path.reduce<unknown>((inner, step) => Reflect.get(Object(inner), step), value);
