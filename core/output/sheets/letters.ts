/** Letters that mark rows, readings, ports and tiles on paper; I and O read as figures. */
export const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';
