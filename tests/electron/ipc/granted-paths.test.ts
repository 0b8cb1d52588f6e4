import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { GrantedPaths } from '../../../electron/ipc/granted-paths.ts';

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
