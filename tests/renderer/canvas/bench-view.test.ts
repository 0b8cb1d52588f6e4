import { beforeEach, expect, test } from 'vitest';
import { benchView, fit, pan, resize, showPicture, showRound } from '../../../renderer/canvas/bench-view.ts';

const PICTURE = { width: 1000, height: 500 };
const PLAYER = { x: 400, y: 50, width: 200, height: 400 };
const zoom = () => benchView.get().view.zoom;

beforeEach(() => {
  resize({ width: 600, height: 400 });
  showPicture(PICTURE, PLAYER);
});

test('fit goes to the player, then to the whole picture, and back', () => {
  expect(zoom()).toBe(1);
  fit(PLAYER);
  expect(zoom()).toBe(0.6);
  fit(PLAYER);
  expect(zoom()).toBe(1);
});

test('after the picture was moved fit goes to the player first', () => {
  fit(PLAYER);
  pan(10, 10);
  fit(PLAYER);
  expect(zoom()).toBe(1);
});

test('where nothing says where the player is, the whole picture is shown', () => {
  showPicture(PICTURE, null);
  expect(zoom()).toBe(0.6);
  fit(null);
  expect(zoom()).toBe(0.6);
});

test('a bench of another size is filled as before, and a picture that was moved keeps its size', () => {
  resize({ width: 600, height: 200 });
  expect(zoom()).toBe(0.5);
  pan(3, 0);
  resize({ width: 600, height: 400 });
  expect(zoom()).toBe(0.5);
});

test('what lies round the player is brought into sight, but not where the coach chose what to see', () => {
  showRound();
  expect(zoom()).toBe(0.6);
  fit(PLAYER);
  pan(3, 0);
  showRound();
  expect(zoom()).toBe(1);
});
