import { readFileSync } from 'node:fs';
import { inProject } from '../../electron/launch/project.mjs';

const face = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(inProject('node_modules/@expo-google-fonts/barlow-semi-condensed', name)));

/** The letters that the window prints with, read from the packages. */
export const printFonts = {
  plain: face('500Medium/BarlowSemiCondensed_500Medium.ttf'),
  strong: face('600SemiBold/BarlowSemiCondensed_600SemiBold.ttf'),
  place: face('500Medium_Italic/BarlowSemiCondensed_500Medium_Italic.ttf'),
};
