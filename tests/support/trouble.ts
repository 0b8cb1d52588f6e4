import { expect } from 'vitest';
import { AppError } from '../../core/model/errors.ts';
import type { ErrorCode } from '../../core/model/errors.ts';

/** Holds when `error` is trouble of that kind with one sentence for people that matches; returns it. */
export function expectTrouble(error: unknown, code: ErrorCode, sentence: RegExp = /./): AppError {
  if (!(error instanceof AppError)) throw new Error(`expected trouble ${code}, got ${String(error)}`, { cause: error });
  expect({ code: error.code, message: error.message }).toEqual({ code, message: expect.stringMatching(sentence) });
  expect(error.message).toMatch(/^\S.*\.$/s);
  return error;
}

/** As `expectTrouble`, for something that must throw. */
export function expectThrown(work: () => unknown, code: ErrorCode, sentence?: RegExp): AppError {
  let result: unknown;
  try {
    result = work();
  } catch (error) {
    return expectTrouble(error, code, sentence);
  }
  throw new Error(`expected trouble ${code}, but it returned ${JSON.stringify(result)}`);
}

/** As `expectTrouble`, for a promise that must be refused. */
export async function expectRefused(work: Promise<unknown>, code: ErrorCode, sentence?: RegExp): Promise<AppError> {
  const [outcome] = await Promise.allSettled([work]);
  if (outcome.status === 'rejected') return expectTrouble(outcome.reason, code, sentence);
  throw new Error(`expected trouble ${code}, but it returned ${JSON.stringify(outcome.value)}`);
}
