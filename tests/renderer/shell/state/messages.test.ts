import { beforeEach, describe, expect, test } from 'vitest';
import { AppError } from '../../../../core/model/errors.ts';
import { app, setApp } from '../../../../renderer/shell/state/app-state.ts';
import {
  dismissMessage,
  sayTrouble,
  solved,
  tellDone,
  tellTrouble,
} from '../../../../renderer/shell/state/messages.ts';

const FULL = new AppError('disk-full', 'The disk is full.');
const SAVE_AGAIN = { label: 'Save again', run: () => undefined };
const texts = () => app.get().messages.map(({ text }) => text);

beforeEach(() => setApp({ messages: [] }));

describe('trouble', () => {
  test('stays with its way out while other things are done, told after it and one at a time', () => {
    tellTrouble(FULL, SAVE_AGAIN, 'edits');
    tellDone('Copied 2 shapes.');
    tellDone('Wrote the swing.');
    expect(texts()).toEqual([FULL.message, 'Wrote the swing.']);
    expect(app.get().messages[0]?.nextStep).toBe(SAVE_AGAIN);
  });

  test('stays beside other trouble, before what was done', () => {
    tellTrouble(FULL);
    tellDone('Wrote the swing.');
    sayTrouble('The clip was moved.');
    expect(texts()).toEqual([FULL.message, 'The clip was moved.', 'Wrote the swing.']);
  });

  test('that comes again is said once, with the latest way out; so is other trouble with the same thing', () => {
    sayTrouble('16 changes are not saved yet.', null, 'edits');
    tellTrouble(FULL, SAVE_AGAIN, 'edits');
    tellTrouble(FULL, SAVE_AGAIN);
    expect(app.get().messages).toEqual([{ kind: 'trouble', text: FULL.message, nextStep: SAVE_AGAIN }]);
  });

  test('goes when it is answered, or what it was about is well again, and nothing else goes with it', () => {
    tellTrouble(FULL, null, 'edits');
    sayTrouble('Your changes of the goals are not saved yet.', null, 'goals');
    sayTrouble('The clip was moved.');
    solved('edits');
    expect(texts()).toEqual(['Your changes of the goals are not saved yet.', 'The clip was moved.']);
    const [first] = app.get().messages;
    if (first !== undefined) dismissMessage(first);
    expect(texts()).toEqual(['The clip was moved.']);
  });

  test('that the coach made by stopping something is none', () => {
    tellTrouble(new AppError('cancelled', 'Stopped.'));
    expect(texts()).toEqual([]);
  });
});
