import type { BrowserWindow, Dialog } from 'electron';
import type { FileDialogs } from '../files/boat-files';

const BOATS = { name: 'Boat', extensions: ['json'] };
const KINDS: Readonly<Record<string, string>> = {
  csv: 'Table',
  json: 'Report',
  txt: 'Text',
  pdf: 'Sheet',
  svg: 'Drawing',
  dxf: 'Drawing',
  xlsx: 'Workbook',
};

/** The system's dialogs, as the file work needs them. */
export function fileDialogs(
  dialog: Pick<Dialog, 'showOpenDialog' | 'showSaveDialog'>,
  owner: () => BrowserWindow | null,
): FileDialogs {
  const save = async (suggestedName: string, name: string, extensions: string[]): Promise<string | null> => {
    const options = { defaultPath: suggestedName, filters: [{ name, extensions }] };
    const window = owner();
    const answer = await (window ? dialog.showSaveDialog(window, options) : dialog.showSaveDialog(options));
    return answer.canceled || !answer.filePath ? null : answer.filePath;
  };
  return {
    boatToOpen: async () => {
      const window = owner();
      const options = { properties: ['openFile' as const], filters: [BOATS] };
      const answer = await (window ? dialog.showOpenDialog(window, options) : dialog.showOpenDialog(options));
      return answer.canceled ? null : (answer.filePaths[0] ?? null);
    },
    boatToSave: (suggestedName) => save(suggestedName, BOATS.name, BOATS.extensions),
    exportTo: (suggestedName, extension) => save(suggestedName, KINDS[extension] ?? 'File', [extension]),
  };
}
