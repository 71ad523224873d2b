import type { Session } from 'electron';

/** Everything a page can ask of the computer, and why the answer is no. What is not listed is refused as well. */
export const REFUSED: Readonly<Record<string, string>> = {
  'clipboard-read': 'nothing is pasted by the page itself; the keyboard and the menu paste',
  'clipboard-sanitized-write': 'lists leave as files that the user names',
  'display-capture': 'the screen is not ours',
  fileSystem: 'files go through the dialogs of the main process',
  fullscreen: 'the window menu does that',
  geolocation: 'a boat under planning has no position',
  hid: 'no device is read',
  'idle-detection': 'nothing depends on the user being away',
  keyboardLock: 'the keyboard stays the user’s',
  media: 'no camera and no microphone',
  mediaKeySystem: 'nothing protected is played',
  midi: 'no instrument is played',
  midiSysex: 'no instrument is played',
  notifications: 'what matters stands in the findings',
  openExternal: 'addresses outside open by the allow-list only',
  pointerLock: 'dragging needs the pointer, not its capture',
  serial: 'no device is read',
  'speaker-selection': 'nothing sounds',
  'storage-access': 'one origin, no frames',
  'top-level-storage-access': 'one origin, no frames',
  usb: 'no device is read',
  'window-management': 'one window',
};

/** Electron grants by default: all handlers must say no. What leaves the page leaves through the dialogs of the main process. */
export function refusePermissions(session: Session): void {
  session.removeAllListeners('will-download');
  session.on('will-download', (event) => event.preventDefault());
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
}
