import path from 'node:path';
import { app, type BrowserWindow, dialog, ipcMain } from 'electron';
import { BoatFiles } from '../files/boat-files';
import { GrantedPaths } from '../files/granted-paths';
import { Journals } from '../files/journal';
import { PictureFiles } from '../files/picture-files';
import { registerHandlers } from '../ipc/handlers';
import { type Closing, holdUnsaved } from './closing';
import { reloadWhenGone } from './crashed';
import { fileDialogs } from './dialogs';
import { installMenu } from './menu';
import { confine, isOwnPage } from './navigation';
import { refusePermissions } from './permissions';
import { answerScheme, registerScheme } from './scheme';
import { createWindow } from './window';

let window: BrowserWindow | null = null;
let closing: Closing | null = null;

function openWindow(): void {
  window = createWindow(path.join(app.getAppPath(), 'dist', 'electron', 'preload.cjs'), app.isPackaged);
  closing = holdUnsaved(window);
  reloadWhenGone(window);
  window.on('closed', () => {
    window = null;
    closing = null;
  });
}

function whenReady(): void {
  const root = app.getAppPath();
  answerScheme({ page: path.join(root, 'dist', 'renderer'), sampleBoats: path.join(root, 'sample-boats') });
  const granted = new GrantedPaths();
  const journals = new Journals(path.join(app.getPath('userData'), 'recovery'), granted);
  app.on('will-quit', () => void journals.closeAll());
  registerHandlers(ipcMain, {
    isOwnPage,
    files: new BoatFiles(
      granted,
      fileDialogs(dialog, () => window),
    ),
    pictures: new PictureFiles(granted),
    journals,
    setUnsaved: (unsaved) => closing?.setUnsaved(unsaved),
    confirmClose: () => closing?.confirm(),
  });
  installMenu(app.isPackaged);
  openWindow();
}

// A second copy would share the journals: it hands over to the first instead.
if (app.requestSingleInstanceLock()) {
  app.enableSandbox();
  registerScheme();
  app.on('web-contents-created', (_event, contents) => {
    confine(contents);
    refusePermissions(contents.session);
  });
  app.on('second-instance', () => {
    if (!window) return;
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  app.on('window-all-closed', () => {
    if (process.platform !== 'darwin') app.quit();
  });
  app.on('activate', () => {
    if (!window && app.isReady()) openWindow();
  });
  void app.whenReady().then(whenReady);
} else {
  app.quit();
}
