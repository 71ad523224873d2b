/** Every channel between the window and the desktop. The preload lets these names through and no other. */
export const CHANNELS = [
  'boat:open',
  'boat:save',
  'boat:look',
  'boat:versions',
  'export:save',
  'picture:keep',
  'picture:read',
  'journal:start',
  'journal:append',
  'journal:list',
  'journal:clear',
  'window:unsaved',
  'window:closeConfirmed',
] as const;
export type Channel = (typeof CHANNELS)[number];

/** What the desktop tells the window, unasked. */
export const CLOSE_REQUESTED = 'window:closeRequested';
