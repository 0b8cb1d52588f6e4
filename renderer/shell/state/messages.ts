import { say } from '../../../core/model/say.ts';
import { AppError } from '../../../core/model/errors.ts';
import { app, setApp } from './app-state.ts';
import type { Message } from './app-state.ts';

/** Tells the coach what went wrong, in the program's own sentence. What the coach stopped is no trouble. */
export function tellTrouble(error: unknown, nextStep: Message['nextStep'] = null, about?: string): void {
  if (error instanceof AppError && error.code === 'cancelled') return;
  const text =
    error instanceof AppError
      ? error.message
      : say`Something in Baybook went wrong. Your book is safe; please try that again.`;
  sayTrouble(text, nextStep, about);
  if (!(error instanceof AppError)) console.error(error);
}

/** The same in a sentence of its own. It waits until it is answered or solved; said again it is not said twice. */
export function sayTrouble(text: string, nextStep: Message['nextStep'] = null, about?: string): void {
  const isSame = (each: Message): boolean => each.text === text || (about !== undefined && each.about === about);
  const trouble: Message = { kind: 'trouble', text, nextStep, ...(about === undefined ? {} : { about }) };
  const { messages } = app.get();
  const [before, done] = [messages.filter(isTrouble), messages.filter((each) => !isTrouble(each))];
  setApp({ messages: [...before.filter((each) => !isSame(each)), trouble, ...done] });
}

/** Takes the place of what was done before; trouble stands beside it. */
export function tellDone(text: string, nextStep: Message['nextStep'] = null): void {
  setApp({ messages: [...app.get().messages.filter(isTrouble), { kind: 'done', text, nextStep }] });
}

/** It is answered, or read. */
export function dismissMessage(message: Message): void {
  app.update((state) => ({ ...state, messages: without(state.messages, (each) => each === message) }));
}

/** What a trouble was about is well again. */
export function solved(about: string): void {
  app.update((state) => ({ ...state, messages: without(state.messages, (each) => each.about === about) }));
}

function without(messages: readonly Message[], goes: (message: Message) => boolean): readonly Message[] {
  return messages.some(goes) ? messages.filter((each) => !goes(each)) : messages;
}

function isTrouble({ kind }: Message): boolean {
  return kind === 'trouble';
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
