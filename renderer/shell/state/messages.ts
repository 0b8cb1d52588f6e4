import { AppError } from '../../../core/model/errors.ts';
import { setApp } from './app-state.ts';
import type { Message } from './app-state.ts';

/** Tells the coach what went wrong, in the program's own sentence. What the coach stopped is no trouble. */
export function tellTrouble(error: unknown, nextStep: Message['nextStep'] = null): void {
  if (error instanceof AppError && error.code === 'cancelled') return;
  const text =
    error instanceof AppError
      ? error.message
      : 'Something in Baybook went wrong. Your book is safe; please try that again.';
  setApp({ message: { kind: 'trouble', text, nextStep } });
  if (!(error instanceof AppError)) console.error(error);
}

export function tellDone(text: string, nextStep: Message['nextStep'] = null): void {
  setApp({ message: { kind: 'done', text, nextStep } });
}

export function dismissMessage(): void {
  setApp({ message: null });
}

/** Runs an action of the coach; trouble goes to the message bar. Answers whether it went well. */
export async function attempt(action: () => Promise<unknown>, nextStep: Message['nextStep'] = null): Promise<boolean> {
  try {
    await action();
    return true;
  } catch (error) {
    tellTrouble(error, nextStep);
    return false;
  }
}
