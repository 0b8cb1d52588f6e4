import { say } from '../model/say.ts';
import * as v from 'valibot';
import { AppError } from '../model/errors.ts';
import { firstTrouble } from './sentence.ts';

/**
 * Checks what a caller hands in, and returns it as the schema reads it (names trimmed). `whole` names it for people:
 * "The student cannot be taken: firstName must have at most 80 characters."
 *
 * @throws AppError `bad-request` with the first field that is wrong and its rule.
 */
export function argument<Schema extends v.GenericSchema>(
  schema: Schema,
  value: unknown,
  whole: string,
): v.InferOutput<Schema> {
  const result = v.safeParse(schema, value, { abortEarly: true });
  if (result.success) return result.output;
  const trouble = firstTrouble(result.issues, say`it`);
  throw new AppError(
    'bad-request',
    say`${whole.charAt(0).toUpperCase()}${whole.slice(1)} cannot be taken: ${trouble}.`,
  );
}
