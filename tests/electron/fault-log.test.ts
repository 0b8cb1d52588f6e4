import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync, existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { describeFault, FaultLog } from '../../electron/fault-log.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'baybook-log-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('the log of our own faults', () => {
  it('keeps each fault with its causes', () => {
    const log = new FaultLog(join(folder, 'not', 'yet', 'there.log'));
    log.write('edit/write', new Error('outer', { cause: new Error('inner') }));
    log.write('clip/index', 'a text');
    const text = readFileSync(log.path, 'utf8');
    expect(text).toMatch(/edit\/write\n {2}Error: outer[\s\S]* {4}Error: inner/);
    expect(text).toMatch(/clip\/index\n {2}a text\n$/);
  });

  it('begins anew when it has grown large, and keeps the one before', () => {
    const log = new FaultLog(join(folder, 'faults.log'));
    writeFileSync(log.path, 'x'.repeat(1_000_001));
    log.write('edit/write', 'new');
    expect(readFileSync(log.path, 'utf8').length).toBeLessThan(200);
    expect(existsSync(`${log.path}.old`)).toBe(true);
  });

  it('forgets all it has, also what was set aside, and goes on', () => {
    const log = new FaultLog(join(folder, 'faults.log'));
    log.clear();
    writeFileSync(log.path, 'Thessaly');
    writeFileSync(`${log.path}.old`, 'Thessaly');
    log.clear();
    expect(readdirSync(folder)).toEqual([]);
    log.write('clip/index', 'after');
    expect(readFileSync(log.path, 'utf8')).toContain('after');
  });

  it('never throws, not even where nothing can be written', () => {
    const said = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const log = new FaultLog(join(folder, 'file-as-folder', 'log'));
    log.write('x', 'makes the folder');
    new FaultLog(join(log.path, 'log')).write('lost', 'y');
    expect(said.mock.calls).toEqual([[expect.stringMatching(/^Baybook could not write its log: .*(ENOTDIR|EEXIST)/)]]);
    log.write('after', 'z');
    const kept = readFileSync(log.path, 'utf8');
    expect(kept).toMatch(/ x\n {2}makes the folder\n.* after\n {2}z\n$/);
    expect(kept).not.toContain('lost');
    said.mockRestore();
  });

  it('ends with a chain of causes that leads back to itself', () => {
    const snake = new Error('snake');
    snake.cause = snake;
    expect(describeFault(snake).match(/Error: snake/g)).toHaveLength(8);
  });
});
