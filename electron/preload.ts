import { contextBridge, ipcRenderer, webUtils } from 'electron';
import { DROPPED_FILE_CHANNEL, FRAMES_PORT_CHANNEL, JOB_REPORT_CHANNEL, REQUEST_CHANNEL } from './ipc/channels.ts';
import type { BaybookBridge, JobReport } from './ipc/contract.ts';

/** All that the window sees of the program. Runs in the sandbox, in a world of its own. */
const bridge: BaybookBridge = {
  request: (name, input) => ipcRenderer.invoke(REQUEST_CHANNEL, name, input),

  onJobReport(listener) {
    const onReport = (_event: unknown, report: JobReport): void => listener(report);
    ipcRenderer.on(JOB_REPORT_CHANNEL, onReport);
    return () => {
      ipcRenderer.off(JOB_REPORT_CHANNEL, onReport);
    };
  },

  pathOfDroppedFile(file) {
    // Only a File that came from the system has a path. Telling the program here, and not letting the page name any path
    // it likes, is what makes the path good for clip/import.
    const path = webUtils.getPathForFile(file);
    if (path === '') return null;
    ipcRenderer.send(DROPPED_FILE_CHANNEL, path);
    return path;
  },
};

contextBridge.exposeInMainWorld('baybook', bridge);

// A port cannot cross the bridge; the page gets it as a message from itself.
ipcRenderer.on(FRAMES_PORT_CHANNEL, ({ ports }) => {
  window.postMessage(FRAMES_PORT_CHANNEL, location.origin, ports);
});
