/** What a spreadsheet takes for a formula when it begins a cell, after blanks of any kind too. */
const FORMULA = /^[\s\p{C}]*[=+\-@|%\uff1d\uff0b\uff0d\uff20]/u;
/** Control characters, halves of letters and what is no letter at all: no file for spreadsheets can hold them. */
const UNWRITABLE = /[^\P{Cc}\t\n\r]|\p{Cs}|\p{Noncharacter_Code_Point}/gu;

/**
 * Text as a spreadsheet must take it: names come from a file that may be anybody's. What would be a formula gets an
 * apostrophe before it, control characters are left out, and text that begins with a tab or a new line is marked too.
 */
export function asText(words: string): string {
  const clean = words.replace(UNWRITABLE, '');
  return FORMULA.test(clean) || /^[\t\r\n]/.test(clean) ? `'${clean}` : clean;
}
