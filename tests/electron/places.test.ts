import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { choosePlaces } from '../../electron/places.ts';

describe('where the book lies', () => {
  it("is the coach's Documents, unless the environment says otherwise", () => {
    const documents = resolve('documents');
    expect(choosePlaces({}, () => documents)).toEqual({ book: join(documents, 'Baybook'), userData: null });
    expect(choosePlaces({ BAYBOOK_BOOK: '', BAYBOOK_USER_DATA: '' }, () => documents).book).toBe(
      join(documents, 'Baybook'),
    );
  });

  it('is what the environment names, made absolute, without looking for Documents', () => {
    const noDocuments = (): string => {
      throw new Error('this machine has no Documents');
    };
    expect(choosePlaces({ BAYBOOK_BOOK: 'lessons', BAYBOOK_USER_DATA: 'settings' }, noDocuments)).toEqual({
      book: resolve('lessons'),
      userData: resolve('settings'),
    });
  });
});
