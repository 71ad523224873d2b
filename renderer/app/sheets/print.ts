import type { Made } from '@core/output/sheets/context';
import type { Lettering } from '@core/output/sheets/marks';
import { openPress, type Press, type Printed } from '@core/output/sheets/pdf';
import plainUrl from '@expo-google-fonts/barlow-semi-condensed/500Medium/BarlowSemiCondensed_500Medium.ttf?url';
import placeUrl from '@expo-google-fonts/barlow-semi-condensed/500Medium_Italic/BarlowSemiCondensed_500Medium_Italic.ttf?url';
import strongUrl from '@expo-google-fonts/barlow-semi-condensed/600SemiBold/BarlowSemiCondensed_600SemiBold.ttf?url';

/** A document that somebody wants; its sheets are made once the letters are there to be measured. */
export interface PdfOrder {
  /** Names the file and the document. */
  readonly name: string;
  readonly subject: string;
  /** `date` is today, YYYY-MM-DD. */
  make(lettering: Lettering, date: string): Promise<Made>;
}

let opened: Promise<Press> | null = null;

/** The document as bytes, or why it cannot be. */
export async function pdfOf({ name, subject, make }: PdfOrder): Promise<Printed | { readonly problem: string }> {
  opened ??= fontBytes().then(openPress);
  // A fetch that failed may succeed the next time.
  opened.catch(() => {
    opened = null;
  });
  const press = await opened;
  const now = new Date();
  const made = await make(press, dayOf(now));
  return 'problem' in made ? made : press.print(made.sheets, { title: name, subject, made: now });
}

async function fontBytes(): Promise<Parameters<typeof openPress>[0]> {
  const [plain, strong, place] = await Promise.all([plainUrl, strongUrl, placeUrl].map(fetched));
  if (!plain || !strong || !place) throw new Error('fontBytes: expected three fonts, got fewer');
  return { plain, strong, place };
}

async function fetched(address: string): Promise<Uint8Array> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`The letters for printing were not loaded: ${address} answers ${answer.status}.`);
  return new Uint8Array(await answer.arrayBuffer());
}

const two = (value: number): string => String(value).padStart(2, '0');
const dayOf = (day: Date): string => `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
