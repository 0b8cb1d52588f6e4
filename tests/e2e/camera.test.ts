import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import type { BookClip } from '../../core/model/book.ts';
import type { PicturePoint, Shape } from '../../core/model/mark.ts';
import { groundMarksOf } from '../../core/scene/still-marks.ts';
import { cameraOf, pointsInWorld, poseOfFrame } from '../../core/scene/truth.ts';
import { copyDemoBook } from '../support/demo-book.ts';
import { within } from '../support/within.ts';
import { seriousViolations } from './accessibility.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';
import { ask } from './page-hands.ts';

/** What is clicked on the ground and along edges, and what that tells of the camera, against the invented scene. */
describe('ground marks and edges', () => {
  const scenario = demoScenario('now');
  let folder: string;
  let program: RunningBaybook;
  let page: Page;
  let swingId: string;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'baybook-camera-'));
    await copyDemoBook(join(folder, 'book'), join(folder, 'settings', 'scrub-copies'));
    const [bookFolder, userData] = [join(folder, 'book'), join(folder, 'settings')];
    program = await launchBaybook({ bookFolder, userData, width: 1280, height: 720 });
    page = program.window;
    page.setDefaultTimeout(20_000);
    const [first] = await ask(page, 'student/list', null);
    swingId = first?.lessons[0]?.swings[0]?.swing.id ?? '';
    await page
      .getByRole('button', { name: /^Swing 1/ })
      .first()
      .click();
    await page.getByRole('button', { name: 'Open Address, Face on, on the bench' }).click({ position: { x: 4, y: 4 } });
    await page.getByText('Exact picture').waitFor();
  }, 300_000);
  afterAll(async () => {
    await program.close();
    await rm(folder, { recursive: true, force: true });
  });

  async function clip(): Promise<BookClip> {
    await page.getByText('All saved').waitFor();
    const { clips } = await ask(page, 'swing/open', { id: swingId });
    const found = clips.find(({ view }) => view === 'face-on');
    if (found === undefined) throw new Error('the demo has no clip face on');
    return found;
  }
  async function shapes(kind: Shape['kind']): Promise<readonly Shape[]> {
    return (await clip()).marks.flatMap((marks) => marks.shapes).filter((shape) => shape.kind === kind);
  }
  async function clickAt({ x, y }: PicturePoint): Promise<void> {
    const at = await page.locator('[role="application"] canvas[data-shown]').evaluate((canvas) => {
      const { zoom, left, top } = canvas instanceof HTMLElement ? canvas.dataset : {};
      const box = canvas.getBoundingClientRect();
      return { zoom: Number(zoom), left: box.left + Number(left), top: box.top + Number(top) };
    });
    await page.mouse.click(at.left + at.zoom * x, at.top + at.zoom * y);
  }
  /** Value and ± of a text as numbers. */
  function figures(text: string | null, pattern: RegExp): { readonly value: number; readonly half: number } {
    const [, value, half] = pattern.exec(text ?? '') ?? [];
    if (value === undefined || half === undefined) throw new Error(`no figures in "${text ?? ''}"`);
    return { value: Number(value.replace('−', '-')), half: Number(half) };
  }

  // The mat's corners, round it from the one nearest the target at the ball's side.
  const corners = [2, 1, 0, 3].map((place) => {
    const mark = groundMarksOf(scenario, 'face-on')[place];
    if (mark === undefined) throw new Error('the scene has not four ground marks');
    return mark.picture;
  });

  async function takeGround(): Promise<void> {
    await page.keyboard.press('g');
    await page.getByLabel('Width along the target line, cm').fill('150');
    await page.getByLabel('Depth toward the ball, cm').fill('150');
  }

  test('places are clicked in the order that is asked for, and cancelled at each step without a trace', async () => {
    await takeGround();
    const asked = page.getByRole('status').filter({ hasText: /clicked/ });
    const names = [/nearest the target, at the ball's/, /nearest the target, at the player's/, /farthest .* player's/];
    for (let count = 1; count <= 3; count += 1) {
      for (const [place, corner] of corners.slice(0, count).entries()) {
        await asked.filter({ hasText: names[place] ?? /none/ }).waitFor();
        await clickAt(corner);
      }
      await asked.filter({ hasText: `${String(count)} of 4 clicked` }).waitFor();
      await page.keyboard.press('Escape');
      await asked.filter({ hasText: '0 of 4 clicked' }).waitFor();
    }
    expect(await shapes('ground')).toEqual([]);
    expect(await seriousViolations(program.app)).toEqual([]);
  });

  test('four clicks tell toe flare, and where the camera stood and looked, within their ±', async () => {
    for (const corner of corners) await clickAt(corner);
    await page.getByRole('region', { name: 'Selected mark' }).getByText('Ground marks', { exact: true }).waitFor();
    expect(await shapes('ground')).toMatchObject([{ layout: 'mat', carried: true }]);

    const row = page.getByRole('listitem').filter({ has: page.getByRole('button', { name: /^Trail foot flare/ }) });
    const flare = figures(await row.first().textContent(), /Trail foot flare([\d.−]+)° ± ([\d.]+)°/);
    const { address } = (await clip()).checkpoints;
    const world = pointsInWorld(poseOfFrame(scenario, address?.index ?? -1));
    const [heel, toe] = [world['trail-heel'], world['trail-toe']];
    within(flare.value, (Math.atan2(heel.x - toe.x, toe.z - heel.z) * 180) / Math.PI, flare.half);
    // A ± that held anything would prove nothing. From a lens at hip height a shoe is seen flat, so it is not small.
    expect(flare.half).toBeLessThan(15);

    await page.getByText('Camera', { exact: true }).click();
    const stood = await page.getByText(/^The lens stood/).textContent();
    const height = figures(stood, /stood ([\d.]+) ± ([\d.]+) m/);
    within(height.value, cameraOf(scenario, 'face-on').centre.y, height.half);
    expect(height.half).toBeLessThan(0.5);
    const looked = await page.getByText(/^The camera pointed/).textContent();
    // Clicked where they truly are, the marks say that it looked straight, or so little beside that the ± covers it.
    const straight = /along the line square to the target line, ± ([\d.]+)°/.exec(looked ?? '');
    const beside = /pointed ([\d.]+)° ± ([\d.]+)° to the (?:left|right) of the line square/.exec(looked ?? '');
    const [off, half] = straight === null ? [Number(beside?.[1]), Number(beside?.[2])] : [0, Number(straight[1])];
    within(off, 0, half);
    expect(half).toBeLessThan(3);
    expect(await seriousViolations(program.app)).toEqual([]);
    await page.getByText('Camera', { exact: true }).click();
  });

  test('new ground marks take the place of the old ones from any frame, and undo brings those back', async () => {
    const [old] = await shapes('ground');
    const home = (await clip()).checkpoints.address?.index;
    await page.getByRole('button', { name: /^Top, frame/ }).click();
    await page.getByText('Exact picture').waitFor();
    await takeGround();
    for (const [place, corner] of corners.entries()) {
      if (place === 3) expect(await shapes('ground')).toEqual([old]);
      await clickAt({ x: corner.x + 20, y: corner.y });
    }
    await expect.poll(async () => (await shapes('ground')).map(({ id }) => id === old?.id)).toEqual([false]);
    const kept = (await clip()).marks.find((marks) => marks.shapes.some(({ kind }) => kind === 'ground'));
    expect(kept?.frame.index).toBe(home);
    await page.keyboard.press('Control+z');
    await expect.poll(() => shapes('ground')).toEqual([old]);
    await page.keyboard.press('Control+z');
    await expect.poll(() => shapes('ground')).toEqual([]);
  });

  test('an edge is clicked, cancelled at each step, kept by Enter and taken back', async () => {
    const places = [60, 400, 800, 1200].map((x) => ({ x, y: 60 }));
    await page.getByText('Exact picture').waitFor();
    for (let count = 1; count <= 3; count += 1) {
      await page.keyboard.press('u');
      for (const place of places.slice(0, count)) await clickAt(place);
      await page.keyboard.press('Escape');
      await page.keyboard.press('Escape');
    }
    expect(await shapes('edge')).toEqual([]);
    await page.keyboard.press('u');
    for (const place of places) await clickAt(place);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Straight edge' }).waitFor();
    const [edge] = await shapes('edge');
    expect(edge).toMatchObject({ carried: true });
    expect(edge?.kind === 'edge' ? edge.places.length : 0).toBe(4);
    await page.keyboard.press('Control+z');
    await expect.poll(() => shapes('edge')).toEqual([]);
  });

  test('how the sticks are laid is told with a drawing, and closed by Esc', async () => {
    await page.keyboard.press('g');
    await page.getByRole('button', { name: 'How to lay the sticks' }).first().click();
    const dialog = page.getByRole('dialog', { name: 'How to lay the sticks' });
    await dialog.getByRole('img', { name: /^From above/ }).waitFor();
    await dialog.getByText(/Nobody swings while the sticks lie/).waitFor();
    expect(await seriousViolations(program.app)).toEqual([]);
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
  });
});
