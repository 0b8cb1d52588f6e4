import { say } from '../core/model/say.ts';
import { Menu } from 'electron';

/**
 * Elsewhere than on macOS there is no menu bar: every command stands in the window, with its key beside it, and a menu
 * would take keys such as Ctrl+Z away from it. macOS puts quit, hide and the clipboard keys nowhere but in a menu.
 */
export function setMenu(platform: NodeJS.Platform): void {
  if (platform !== 'darwin') {
    Menu.setApplicationMenu(null);
    return;
  }
  Menu.setApplicationMenu(
    Menu.buildFromTemplate([
      { role: 'appMenu' },
      { label: say`Edit`, submenu: [{ role: 'cut' }, { role: 'copy' }, { role: 'paste' }, { role: 'selectAll' }] },
      { role: 'windowMenu' },
    ]),
  );
}
