import { say } from '../../core/model/say.ts';
import { systemTrouble } from '../../core/files/file-trouble.ts';
import { AppError } from '../../core/model/errors.ts';
import type { ErrorFacts, Outcome, RequestName, Requests, Written } from './contract.ts';
import { isRequestName, parseRequest } from './parse-request.ts';

/** One handler a request name; the compiler refuses a table with one missing. */
export type Handlers = {
  readonly [Name in RequestName]: (
    input: Requests[Name]['in'],
  ) => Requests[Name]['out'] | Promise<Requests[Name]['out']>;
};

/** What the window shows when we failed, not the coach. The cause goes to the log, not to the window. */
export const INTERNAL_SENTENCE = say`Baybook could not do that because of a fault of its own. What was saved is safe; try again, or start Baybook anew.`;

/**
 * Answers one request, whatever arrives. Never rejects: every error travels as data. `onFault` is told of each error that
 * is no AppError, with the request's name.
 */
export async function answer(
  handlers: Handlers,
  name: unknown,
  input: unknown,
  onFault: (name: string, cause: unknown) => void,
): Promise<Outcome<unknown>> {
  if (!isRequestName(name)) return refusal(new AppError('bad-request', say`Baybook does not know this request.`));
  try {
    return { ok: true, value: await answerNamed(handlers, name, input) };
  } catch (cause) {
    if (cause instanceof AppError) return refusal(cause);
    onFault(name, cause);
    const told = systemTrouble(cause);
    return refusal(told instanceof AppError ? told : new AppError('internal', INTERNAL_SENTENCE));
  }
}

/** An error as it crosses to the window: its code, sentence and facts, no stack and no cause. */
export function refusal(error: AppError): Outcome<never> {
  return { ok: false, error: factsOf(error) };
}

/** What a row of writes answers with once a write is made. */
export function written(earlierRefused: unknown): Written {
  return { earlierRefused: earlierRefused instanceof AppError ? factsOf(earlierRefused) : null };
}

function factsOf({ code, message, detail }: AppError): ErrorFacts {
  return { code, message, detail };
}

function answerNamed<Name extends RequestName>(
  handlers: Handlers,
  name: Name,
  input: unknown,
): Requests[Name]['out'] | Promise<Requests[Name]['out']> {
  return handlers[name](parseRequest(name, input));
}
