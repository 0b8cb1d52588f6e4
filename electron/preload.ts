import { contextBridge, ipcRenderer, webFrame, webUtils } from 'electron';
import {
  CLIP_SETTLED_CHANNEL,
  DROPPED_FILE_CHANNEL,
  FRAMES_PORT_CHANNEL,
  FRAMES_STOPPED_CHANNEL,
  JOB_REPORT_CHANNEL,
  LANGUAGE_ARGUMENT,
  REQUEST_CHANNEL,
  WIND_UP_CHANNEL,
} from './ipc/channels.ts';
import type { BaybookBridge } from './ipc/contract.ts';

/** Calls back with whatever the program tells on a channel; returns how to stop. */
function follow<Told>(channel: string, listener: (told: Told) => void): () => void {
  const onTold = (_event: unknown, told: Told): void => listener(told);
  ipcRenderer.on(channel, onTold);
  return () => {
    ipcRenderer.off(channel, onTold);
  };
}

/** All that the window sees of the program. Runs in the sandbox, in a world of its own. */
const bridge: BaybookBridge = {
  request: (name, input) => ipcRenderer.invoke(REQUEST_CHANNEL, name, input),

  onJobReport: (listener) => follow(JOB_REPORT_CHANNEL, listener),
  onClipSettled: (listener) => follow(CLIP_SETTLED_CHANNEL, listener),
  onWindUp: (listener) => follow(WIND_UP_CHANNEL, listener),
  onFramesStopped: (listener) => follow(FRAMES_STOPPED_CHANNEL, listener),

  pathOfDroppedFile(file) {
    // Only a File that came from the system has a path. Telling the program here, and not letting the page name any path
    // it likes, is what makes the path good for clip/import.
    const path = webUtils.getPathForFile(file);
    if (path === '') return null;
    ipcRenderer.send(DROPPED_FILE_CHANNEL, path);
    return path;
  },

  // What pictures left behind in Chromium's stores and in the page's heap goes back to the system now, not some day.
  giveMemoryBack: () => webFrame.clearCache(),
};

contextBridge.exposeInMainWorld('baybook', bridge);

// Before the page's first module, for its lists of words are made when they are loaded (core/model/language.ts).
const told = process.argv.find((argument) => argument.startsWith(LANGUAGE_ARGUMENT));
contextBridge.exposeInMainWorld('baybookLanguage', told?.slice(LANGUAGE_ARGUMENT.length) ?? '');

// A peer connection is no request, so nobody could refuse it, and making one already looks for a way to the outside.
void webFrame.executeJavaScript('delete window.RTCPeerConnection; delete window.webkitRTCPeerConnection;');

// A port cannot cross the bridge; the page gets it as a message from itself.
ipcRenderer.on(FRAMES_PORT_CHANNEL, ({ ports }) => {
  window.postMessage(FRAMES_PORT_CHANNEL, location.origin, ports);
});
