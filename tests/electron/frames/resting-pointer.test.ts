import { describe, expect, it } from 'vitest';
import { RestingPointer } from '../../../electron/frames/resting-pointer.ts';

function pointerAt(named: readonly number[] = []) {
  const clock = { ms: 0 };
  return { clock, pointer: new RestingPointer(named, () => clock.ms) };
}

describe('where a hand rests', () => {
  it('is its first frame at once, and after that where it has not moved for a while', () => {
    const { clock, pointer } = pointerAt();
    expect(pointer.lookedAt().pointer).toBe(null);
    pointer.move(7);
    expect(pointer.lookedAt().pointer).toBe(7);
    for (let frame = 8; frame < 20; frame += 1) {
      clock.ms += 100;
      pointer.move(frame);
      expect(pointer.lookedAt().pointer).toBe(7);
    }
    clock.ms += 299;
    expect(pointer.lookedAt().pointer).toBe(7);
    clock.ms += 1;
    expect(pointer.lookedAt().pointer).toBe(19);
  });

  it('is not moved by asking again for the same frame', () => {
    const { clock, pointer } = pointerAt();
    pointer.move(1);
    pointer.lookedAt();
    pointer.move(2);
    for (let ms = 0; ms < 300; ms += 100) {
      clock.ms += 100;
      pointer.move(2);
    }
    expect(pointer.lookedAt().pointer).toBe(2);
  });

  it('is the same object as long as nothing changes, and another one with other names', () => {
    const { pointer } = pointerAt([3]);
    const before = pointer.lookedAt();
    pointer.name([3]);
    expect(pointer.lookedAt()).toBe(before);
    pointer.name([3, 4]);
    expect(pointer.lookedAt()).toEqual({ pointer: null, named: [3, 4] });
  });
});
