import { app, BrowserWindow } from 'electron';

/** A window as Electron makes it by itself, guarded by nothing: what our own program is held against. */
app.setPath('userData', process.env.BAYBOOK_USER_DATA);
// Not awaited: Electron is ready only after this file has ended.
void app.whenReady().then(() => new BrowserWindow().loadURL('data:text/html,<title>unguarded</title><textarea>'));
