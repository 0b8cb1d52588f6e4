import { BrowserWindow, nativeTheme, type Session, type WebContents } from 'electron';
import { wantNoDictionary } from './closed-network.ts';
import type { Microphone } from './microphone.ts';
import type { WindowPlace } from './window-place.ts';
import { LANGUAGE_ARGUMENT } from './ipc/channels.ts';
import { OWN_PROTOCOLS, WINDOW_ORIGIN } from './origins.ts';

const PAGE = `${WINDOW_ORIGIN}/index.html`;

/** Shown for the instant before the page has drawn, so that a dark room is not lit up by a white window. */
const BACKGROUND = { dark: '#1c1f22', light: '#f5f5f2' };

/** The first time, in pixels. */
const USUAL_SIZE = { width: 1280, height: 800 };

/**
 * Opens the program's one window, where it stood last; shown once its page has drawn. `preload` is an absolute path,
 * `place` null the first time.
 */
export function openWindow(preload: string, place: WindowPlace | null): BrowserWindow {
  const { maximised, ...bounds } = place ?? { ...USUAL_SIZE, maximised: false };
  const window = new BrowserWindow({
    title: 'Baybook',
    ...bounds,
    minWidth: 1100,
    minHeight: 680,
    show: false,
    backgroundColor: nativeTheme.shouldUseDarkColors ? BACKGROUND.dark : BACKGROUND.light,
    webPreferences: {
      preload,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
      navigateOnDragDrop: false,
      spellcheck: false,
      enableWebSQL: false,
      safeDialogs: true,
      // A sandboxed preload script has no variables of the process.
      additionalArguments: [`${LANGUAGE_ARGUMENT}${process.env['BAYBOOK_LANGUAGE'] ?? ''}`],
    },
  });
  window.once('ready-to-show', () => {
    if (maximised) window.maximize();
    window.show();
  });
  void window.loadURL(PAGE);
  return window;
}

/**
 * Refuses, for all pages of this session: every address that is not our own, every download, and every permission but the
 * one that `microphone` gives.
 */
export function guardSession(session: Session, microphone: Microphone, onRefused: (url: string) => void): void {
  session.webRequest.onBeforeRequest((details, answer) => {
    const own = OWN_PROTOCOLS.has(protocolOf(details.url));
    if (!own) onRefused(details.url);
    answer({ cancel: !own });
  });
  microphone.guard(session);
  session.setDevicePermissionHandler(() => false);
  wantNoDictionary(session);
  session.on('will-download', (event) => event.preventDefault());
}

/**
 * Keeps any page where it is: no leaving, no new windows, no embedded pages. Peer connections, which `guardSession` is
 * not asked about, have no constructor in the page (preload.ts), may use no UDP, and find no way out by TCP
 * (closed-network.ts).
 */
export function guardContents(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  // A reload stays on the page; a dropped file, a link or a script that leaves it does not.
  contents.on('will-navigate', (event) => {
    if (event.url !== PAGE) event.preventDefault();
  });
  contents.on('will-frame-navigate', (event) => {
    if (event.url !== PAGE) event.preventDefault();
  });
  contents.on('will-redirect', (event) => event.preventDefault());
  // about: pages are no navigation to Chromium, so nobody is asked; the page is fetched back instead.
  contents.on('did-navigate', (_event, url) => {
    if (url !== PAGE) void contents.loadURL(PAGE);
  });
  contents.on('will-attach-webview', (event) => event.preventDefault());
  // An empty frame is not asked for either, and would have a window of its own with all that the page's own was denied.
  contents.on('frame-created', (_event, { frame }) => {
    if (frame?.parent) void contents.loadURL(PAGE);
  });
  contents.setWebRTCIPHandlingPolicy('disable_non_proxied_udp');
}

function protocolOf(url: string): string {
  return URL.canParse(url) ? new URL(url).protocol : '';
}
