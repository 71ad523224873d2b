import { BrowserWindow, type WebPreferences } from 'electron';
import { START_PAGE } from './scheme';

/** Every security switch of the window, in one literal. */
export function webPreferences(preload: string, packaged: boolean): WebPreferences {
  return {
    preload,
    contextIsolation: true,
    sandbox: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    webviewTag: false,
    navigateOnDragDrop: false,
    devTools: !packaged,
    spellcheck: false,
  };
}

export function createWindow(preload: string, packaged: boolean): BrowserWindow {
  const window = new BrowserWindow({
    width: 1440,
    height: 900,
    minWidth: 960,
    minHeight: 640,
    show: false,
    title: 'Underberth',
    webPreferences: webPreferences(preload, packaged),
  });
  window.once('ready-to-show', () => window.show());
  void window.loadURL(START_PAGE);
  return window;
}
