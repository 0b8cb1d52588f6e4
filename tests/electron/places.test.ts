import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { GrantedPaths } from '../../electron/granted-paths.ts';
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

describe('a path that the coach pointed at', () => {
  it('is good however it is written, as a file or as a folder but not as both', () => {
    const granted = new GrantedPaths();
    granted.grantFile(resolve('clips', 'swing.mp4'));
    granted.grantFolder(resolve('stills'));
    expect(granted.hasFile(join(resolve('clips'), '..', 'clips', 'swing.mp4'))).toBe(true);
    expect(granted.hasFile(resolve('stills'))).toBe(false);
    expect(granted.hasFolder(resolve('clips', 'swing.mp4'))).toBe(false);
  });

  it('does not open the way to its neighbours', () => {
    const granted = new GrantedPaths();
    granted.grantFolder(resolve('stills'));
    granted.grantFile(resolve('clips', 'swing.mp4'));
    expect(granted.hasFolder(resolve('stills', 'private'))).toBe(false);
    expect(granted.hasFolder(resolve('.'))).toBe(false);
    expect(granted.hasFile(resolve('clips', 'other.mp4'))).toBe(false);
  });
});
