import { existsSync, readdirSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { draggedFile } from './page-hands.ts';

/** A still that is dragged out of the window is a real file for as long as it is needed, and gone afterwards. */
describe('a still that is dragged out', () => {
  let demo: DemoProgram;

  beforeAll(async () => {
    demo = await openDemoProgram('drag-out');
  });
  afterAll(() => demo.close());

  const lying = (): string[] => {
    const folder = join(demo.folder, 'settings', 'going-out');
    return existsSync(folder) ? readdirSync(folder) : [];
  };
  const drag = () =>
    draggedFile(
      demo.program.app,
      demo.page,
      demo.page.locator('[data-still-checkpoint=top]').getByText('Drag out').first(),
    );

  test('is the still for a phone, whole, with a name that says whose it is; the next takes its place', async () => {
    await demo.openSwing();
    const file = await drag();
    expect(file).toMatch(/Robin.*top.*\.jpe?g$/i);
    const { width, height, format } = await sharp(await readFile(file)).metadata();
    expect([width, height, format]).toEqual([1080, 1350, 'jpeg']);
    await drag();
    expect(lying()).toHaveLength(1);
  });

  test('by a hand that lets go too soon is not offered, and that is said', async () => {
    const grip = demo.page.locator('[data-still-checkpoint=top]').getByText('Drag out').first();
    const box = await grip.boundingBox();
    if (box === null) throw new Error('no grip');
    await demo.page.mouse.move(box.x + 10, box.y + 10);
    await demo.page.mouse.down();
    await demo.page.mouse.move(box.x + 60, box.y + 60, { steps: 4 });
    await demo.page.mouse.up();
    await demo.page.getByText(/^Keep the button pressed until the file is ready/).waitFor();
  });

  test('lies nowhere once something was removed for good, nor after the program', async () => {
    expect(lying()).toHaveLength(1);
    await demo.page.getByRole('button', { name: 'Students' }).click();
    await demo.page.getByRole('button', { name: /^Remove lesson 14 April/ }).click();
    await demo.page.getByRole('button', { name: 'Bin', exact: true }).click();
    await demo.page.getByRole('button', { name: /^Remove .* for good$/ }).click();
    await demo.page.getByRole('button', { name: 'Remove for good', exact: true }).click();
    await expect.poll(lying).toEqual([]);
    await demo.page.getByRole('button', { name: 'Close', exact: true }).last().click();
    await demo.openSwing();
    await drag();
    expect(lying()).toHaveLength(1);
    await demo.restart();
    expect(lying()).toEqual([]);
  });
});
