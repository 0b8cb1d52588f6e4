import { describe, expect, it } from 'vitest';
import { windowFilePath } from '../../electron/window-files.ts';

describe("the window's own files", () => {
  it('are found by plain names', () => {
    expect(windowFilePath('baybook://window/')).toBe('index.html');
    expect(windowFilePath('baybook://window/index.html')).toBe('index.html');
    expect(windowFilePath('baybook://window/assets/main-B2x_3.js?v=1#top')).toBe('assets/main-B2x_3.js');
  });

  it.each([
    'baybook://window/../main/main.js',
    'baybook://window/assets/../../main.js',
    'baybook://window/%2e%2e/main.js',
    'baybook://window/assets/.env',
    'baybook://window//etc/passwd',
    'baybook://window/C:/windows',
    'baybook://window/assets\\main.js',
    'baybook://window/assets/',
    'baybook://windows/index.html',
    'file:///etc/passwd',
  ])('are nothing else: %s', (url) => {
    expect(windowFilePath(url)).toBeNull();
  });
});
