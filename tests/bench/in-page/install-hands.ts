import type { Answer, BenchInPage, Order, Seen } from './contract.ts';

/** Puts the acting half of `window.bench` into the page. Runs there: it uses nothing from outside itself. */
export function installHands(): void {
  const rest = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

  function field(selector: string): HTMLInputElement {
    const found = document.querySelector(selector);
    if (found instanceof HTMLInputElement) return found;
    throw new Error(`the page has no ${selector}`);
  }

  /** Writes into a field as typing does: React listens to the setter of the prototype. */
  function write(input: HTMLInputElement, text: string): void {
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set?.call(input, text);
    input.dispatchEvent(new Event('input', { bubbles: true }));
  }

  function press(on: Element, key: string, shiftKey: boolean): void {
    on.dispatchEvent(new KeyboardEvent('keydown', { key, shiftKey, bubbles: true, cancelable: true }));
    on.dispatchEvent(new KeyboardEvent('keyup', { key, shiftKey, bubbles: true, cancelable: true }));
  }

  function isWanted(order: Pick<Order, 'target' | 'want'>, seen: Pick<Seen, 'kind' | 'index' | 'quality'>): boolean {
    return seen.kind === 'painted' && seen.index === order.target && (order.want === 'any' || seen.quality === 'sharp');
  }

  function isShown(order: Order): boolean {
    const { shown, quality } = window.bench.canvas()?.dataset ?? {};
    return shown !== undefined && isWanted(order, { kind: 'painted', index: Number(shown), quality: quality ?? '' });
  }

  /** Acts, and resolves with the first paint of what was wanted, or null. The paint's pixels are read at once. */
  function until(order: Order, act: () => void): Promise<{ seen: Seen; code: number | null; drawnAt: number } | null> {
    const { listeners, readCode } = window.bench;
    return new Promise((resolve) => {
      const look = (seen: Seen): void => {
        if (!isWanted(order, seen)) return;
        done();
        const code = readCode();
        resolve({ seen, code, drawnAt: performance.now() });
      };
      const timer = setTimeout(() => {
        done();
        resolve(null);
      }, order.limit);
      const done = (): void => {
        clearTimeout(timer);
        listeners.delete(look);
      };
      listeners.add(look);
      act();
    });
  }

  async function carryOutOne(order: Order): Promise<Answer> {
    const { act, target, pause } = order;
    const { seen } = window.bench;
    if (pause > 0) await rest(pause);
    const stage = document.querySelector('[role="application"]');
    if (stage === null) throw new Error('the page has no bench');
    const jumps = act.kind === 'jump';
    if (jumps && isShown(order)) {
      // Nothing would be painted: the hand first steps aside.
      const [by, key] = target > 0 ? [-1, 'ArrowLeft'] : [1, 'ArrowRight'];
      await until({ ...order, target: target + by, want: 'any' }, () => press(stage, key, false));
    }
    const place = jumps ? field('input[aria-label="Go to frame"]') : stage;
    if (place instanceof HTMLInputElement) {
      write(place, String(target));
      // React takes the text over before Enter is pressed, as it does between two real keys.
      await rest(0);
    }
    const before = seen.length;
    let start = 0;
    const found = await until(order, () => {
      start = performance.now();
      press(place, act.kind === 'jump' ? 'Enter' : act.key, act.kind === 'key' && act.shift);
    });
    const arrived = seen.slice(before).find(({ kind, index }) => kind === 'arrived' && index === target);
    return {
      target,
      data: arrived === undefined ? null : arrived.at - start,
      handed: found === null ? null : found.seen.at - start,
      drawn: found === null ? null : found.drawnAt - start,
      code: found?.code ?? null,
    };
  }

  const hands: Partial<BenchInPage> = {
    async carryOut(orders) {
      const answers: Answer[] = [];
      for (const order of orders) {
        const answer = await carryOutOne(order);
        answers.push(answer);
        // A bench that no longer answers would take hours.
        if (answers.length >= 5 && answers.slice(-5).every(({ drawn }) => drawn === null)) break;
      }
      return answers;
    },
    async slide(frames, every, limit) {
      const target = frames.at(-1) ?? 0;
      const strip = field('input[type="range"][aria-label="Frame"]');
      const order: Order = { act: { kind: 'jump' }, target, want: 'any', pause: 0, limit };
      for (const frame of frames.slice(0, -1)) {
        write(strip, String(frame));
        await rest(every);
      }
      return (await until(order, () => write(strip, String(target)))) !== null;
    },
    async drag(from, moves) {
      const [upper, lower] = ['upper', 'lower'].map((which) =>
        document.querySelector<HTMLCanvasElement>(`[role="application"] canvas.${which}-canvas`),
      );
      const context = lower?.getContext('2d');
      if (!upper || !context) throw new Error('the page has no marks');
      let renders = 0;
      const { clearRect } = context;
      // Every paint begins with this.
      context.clearRect = (...area) => {
        renders += 1;
        clearRect.apply(context, area);
      };
      // A real pointer tells of itself before the page's own work for a picture, so the hand moves after the one before.
      const nextPicture = (): Promise<number> =>
        new Promise((resolve) => requestAnimationFrame((at) => setTimeout(() => resolve(at))));
      const tell = (type: string, by: number): void => {
        const place = { clientX: from.x + by, clientY: from.y + by / 2 };
        const pen = { pointerId: 1, pointerType: 'mouse', isPrimary: true, buttons: type === 'pointerup' ? 0 : 1 };
        upper.dispatchEvent(
          new PointerEvent(type, {
            ...place,
            ...pen,
            button: type === 'pointermove' ? -1 : 0,
            bubbles: true,
            cancelable: true,
          }),
        );
      };
      tell('pointerdown', 0);
      await nextPicture();
      await nextPicture();
      const start = await nextPicture();
      renders = 0;
      let [last, slowest] = [start, 0];
      for (let move = 1; move <= moves; move += 1) {
        tell('pointermove', 0.75 * move);
        const at = await nextPicture();
        slowest = Math.max(slowest, at - last);
        last = at;
      }
      const counted = renders;
      context.clearRect = clearRect;
      tell('pointerup', 0.75 * moves);
      return { moves, renders: counted, elapsed: last - start, slowest };
    },
  };
  window.bench = Object.assign(window.bench ?? {}, hands);
}
