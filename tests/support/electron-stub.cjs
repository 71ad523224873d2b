/**
 * Stands for the module `electron` where there is no binary: takes note of what the shell asks for and plays the
 * parts of it that tests need. Plain CommonJS, so that the built main.cjs can be given it too.
 */
const { EventEmitter } = require('node:events');

function createElectronStub({ root, userData, firstInstance = true, packaged = false }) {
  const noted = {
    order: [],
    schemes: [],
    schemeAnswers: new Map(),
    ipc: new Map(),
    windows: [],
    openedOutside: [],
    menus: [],
    dialogs: { open: { canceled: true, filePaths: [] }, save: { canceled: true, filePath: '' } },
  };
  const session = Object.assign(new EventEmitter(), {
    requestHandler: null,
    checkHandler: null,
    deviceHandler: null,
    setPermissionRequestHandler: (handler) => {
      session.requestHandler = handler;
    },
    setPermissionCheckHandler: (handler) => {
      session.checkHandler = handler;
    },
    setDevicePermissionHandler: (handler) => {
      session.deviceHandler = handler;
    },
  });

  class WebContents extends EventEmitter {
    session = session;
    sent = [];
    windowOpenHandler = null;
    setWindowOpenHandler(handler) {
      this.windowOpenHandler = handler;
    }
    reloads = 0;
    reload() {
      this.reloads += 1;
    }
    send(...words) {
      this.sent.push(words);
    }
  }
  class BrowserWindow extends EventEmitter {
    constructor(options) {
      super();
      this.options = options;
      this.loaded = [];
      this.shown = false;
      this.focused = false;
      this.webContents = new WebContents();
      noted.windows.push(this);
      noted.order.push('window');
      app.emit('web-contents-created', {}, this.webContents);
    }
    loadURL(url) {
      this.loaded.push(url);
      return Promise.resolve();
    }
    show() {
      this.shown = true;
    }
    focus() {
      this.focused = true;
    }
    isMinimized() {
      return false;
    }
    /** As the real one: asks its listeners first; true when the window went. */
    close() {
      let held = false;
      this.emit('close', {
        preventDefault: () => {
          held = true;
        },
      });
      if (!held) this.emit('closed');
      return !held;
    }
  }

  const app = Object.assign(new EventEmitter(), {
    isPackaged: packaged,
    quitted: false,
    getAppPath: () => root,
    getPath: () => userData,
    isReady: () => true,
    enableSandbox: () => noted.order.push('sandbox'),
    requestSingleInstanceLock: () => {
      noted.order.push('lock');
      return firstInstance;
    },
    whenReady: () => Promise.resolve(),
    quit: () => {
      app.quitted = true;
    },
  });
  const electron = {
    app,
    BrowserWindow,
    Menu: { buildFromTemplate: (template) => template, setApplicationMenu: (menu) => noted.menus.push(menu) },
    dialog: {
      showOpenDialog: async () => noted.dialogs.open,
      showSaveDialog: async () => noted.dialogs.save,
    },
    ipcMain: { handle: (channel, listener) => noted.ipc.set(channel, listener) },
    protocol: {
      registerSchemesAsPrivileged: (schemes) => {
        noted.order.push('scheme');
        noted.schemes.push(...schemes);
      },
      handle: (scheme, answer) => noted.schemeAnswers.set(scheme, answer),
    },
    shell: {
      openExternal: async (address) => {
        noted.openedOutside.push(address);
      },
    },
  };
  return { electron, noted, session };
}

module.exports = { createElectronStub };
