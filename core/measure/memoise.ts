/**
 * The same function, which does not work out again what it was asked last about the same thing: marks are values that never
 * change, and are asked about again with every move of another mark. `of` holds its answer; the rest is compared one by one.
 */
export function remembered<Of extends object, Rest extends readonly unknown[], Answer>(
  compute: (of: Of, ...rest: Rest) => Answer,
): (of: Of, ...rest: Rest) => Answer {
  const last = new WeakMap<Of, { readonly rest: Rest; readonly answer: Answer }>();
  return (of, ...rest) => {
    const known = last.get(of);
    if (known?.rest.length === rest.length && known.rest.every((each, i) => Object.is(each, rest[i])))
      return known.answer;
    const answer = compute(of, ...rest);
    last.set(of, { rest, answer });
    return answer;
  };
}
