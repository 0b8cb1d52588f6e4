import { setTimeout as rest } from 'node:timers/promises';
import type { Page } from 'playwright-core';

/** Long enough for a page to be taken back to its start. */
const LEFT_MS = 300;

/**
 * Has the page try to reach each of the hosts (with their ports) by every kind of request a browser knows that does not
 * leave the page. Resolves when all were tried; most say nothing when they fail, so nobody is asked how it went.
 */
export async function tryRequests(page: Page, hosts: readonly string[]): Promise<void> {
  await page.evaluate(tryAll, hosts);
}

/** The same by leaving the page, opening another or putting one into it. */
export async function tryLeaving(page: Page, hosts: readonly string[]): Promise<void> {
  for (const host of hosts)
    for (const leave of LEAVING) {
      // A page that is being left does not answer.
      const left = page.evaluate(leave, `http://${host}/left`).catch(() => undefined);
      await Promise.race([left, rest(LEFT_MS)]);
      await rest(LEFT_MS);
    }
}

const LEAVING = [
  (url: string) => void window.open(url),
  (url: string) => {
    const form = document.createElement('form');
    [form.action, form.method] = [url, 'post'];
    document.body.append(form);
    form.submit();
  },
  (url: string) => {
    const link = document.createElement('a');
    [link.href, link.ping] = [url, url];
    document.body.append(link);
    link.click();
  },
  (url: string) => {
    document.body.insertAdjacentHTML('beforeend', `<iframe src="${url}"></iframe><object data="${url}"></object>`);
  },
  (url: string) => {
    document.body.insertAdjacentHTML('beforeend', `<embed src="${url}"><meta http-equiv="refresh" content="0;${url}">`);
  },
  (url: string) => {
    location.href = url;
  },
];

/** Runs in the page. */
async function tryAll(hosts: readonly string[]): Promise<void> {
  const attempts: (() => unknown)[] = [];
  for (const host of hosts) {
    const [http, https] = [`http://${host}/`, `https://${host}/`];
    const markup = (html: string) => () => document.body.insertAdjacentHTML('beforeend', html);
    const style = (css: string) => () => document.head.insertAdjacentHTML('beforeend', `<style>${css}</style>`);
    const head =
      (rel: string, more = '') =>
      () =>
        document.head.insertAdjacentHTML('beforeend', `<link rel="${rel}" href="${http}${rel}" ${more}>`);
    const ask = (method: string) => () => {
      const request = new XMLHttpRequest();
      request.open(method, `${http}xhr`);
      request.send();
    };
    attempts.push(
      () => fetch(http, { mode: 'no-cors' }),
      () => fetch(https, { method: 'POST', body: 'x', mode: 'no-cors', keepalive: true }),
      ask('GET'),
      ask('POST'),
      () => navigator.sendBeacon(`${http}beacon`, 'x'),
      () => new WebSocket(`ws://${host}/`),
      () => new WebSocket(`wss://${host}/`),
      () => new EventSource(`${http}events`),
      () => new WebTransport(https).ready,
      () => import(/* @vite-ignore */ `${http}module.js`),
      () => new Worker(`${http}worker.js`),
      () => new SharedWorker(`${http}shared.js`),
      () => navigator.serviceWorker.register(`${http}service.js`),
      () => new Worker(URL.createObjectURL(new Blob([`importScripts('${http}imported.js')`]))),
      () => new FontFace('out', `url(${http}font.woff2)`).load(),
      () => new Audio(`${http}sound.mp3`).play(),
      () =>
        new PaymentRequest([{ supportedMethods: `${https}pay` }], {
          total: { label: 'x', amount: { currency: 'EUR', value: '1' } },
        }).canMakePayment(),
      () => new Notification('x', { icon: `${http}icon.png`, body: 'x' }),
      () => new Image().setAttribute('src', `${http}image.png`),
      markup(`<img src="${http}a.png" srcset="${http}b.png 2x"><picture><source srcset="${http}c.png"><img></picture>`),
      markup(
        `<video src="${http}video.mp4" poster="${http}poster.png" autoplay muted><track src="${http}t.vtt" default></video>`,
      ),
      markup(`<svg><image href="${http}svg.png"/><use href="${http}use.svg#a"/><feImage href="${http}fe.png"/></svg>`),
      markup(`<input type="image" src="${http}input.png"><table background="${http}table.png"><tr><td>x</table>`),
      markup(`<script src="${http}never.js"></script><div style="background:url(${http}inline.png)">x</div>`),
      () => {
        const script = document.createElement('script');
        script.src = `${http}script.js`;
        document.head.append(script);
      },
      style(`@import url(${http}import.css); @font-face { font-family: o; src: url(${http}face.woff2); }`),
      style(`body { font-family: o; background: url(${http}background.png); cursor: url(${http}cursor.png), auto; }`),
      style(`body::before { content: url(${http}content.png); } body { mask-image: url(${http}mask.svg); }`),
      ...['stylesheet', 'icon', 'manifest', 'prefetch', 'preconnect', 'dns-prefetch', 'prerender'].map((rel) =>
        head(rel),
      ),
      ...['modulepreload', 'preload'].map((rel) => head(rel, 'as="script"')),
      () => {
        const rules = document.createElement('script');
        rules.type = 'speculationrules';
        rules.textContent = JSON.stringify({ prefetch: [{ urls: [`${https}speculated`] }] });
        document.head.append(rules);
      },
    );
  }
  // Services of a browser's maker.
  attempts.push(
    () => navigator.geolocation.getCurrentPosition(() => undefined),
    () => {
      const Recognition: unknown = Reflect.get(window, 'webkitSpeechRecognition');
      if (typeof Recognition === 'function') (Reflect.construct(Recognition, []) as { start(): void }).start();
    },
    () => {
      speechSynthesis.speak(new SpeechSynthesisUtterance('x'));
    },
  );
  const ended = attempts.map(async (attempt) => {
    await attempt();
  });
  await Promise.race([Promise.allSettled(ended), new Promise((resolve) => setTimeout(resolve, 4000))]);
}
