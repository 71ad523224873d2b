import type { Element } from './polygon';
import type { Structure } from './structure';

/** The tangent polygon of a run as plain data: what a warm run starts from. */
export interface Seed {
  readonly elements: readonly SeedElement[];
}
type SeedElement =
  | { readonly kind: 'lead'; readonly beyondM: number }
  | { readonly kind: 'free'; readonly params: readonly number[] }
  | { readonly kind: 'clip'; readonly params: readonly number[] }
  | {
      readonly kind: 'hole';
      readonly frame: number;
      readonly panelId: string;
      readonly holeId: string | null;
      readonly forward: boolean;
      readonly stubM: number;
      readonly params: readonly number[];
    };

export const seedOf = (elements: readonly Element[]): Seed => ({ elements: elements.map(seedElement) });

function seedElement(element: Element): SeedElement {
  switch (element.kind) {
    case 'lead':
      return { kind: 'lead', beyondM: (element.params[0] as number) - element.leadM };
    case 'free':
      return { kind: 'free', params: [...element.params] };
    case 'clip':
      return { kind: 'clip', params: [...element.params] };
    case 'hole':
      return {
        kind: 'hole',
        frame: element.frame.portal.index,
        panelId: element.panel.id,
        holeId: element.hole?.id ?? null,
        forward: element.forward,
        stubM: element.stubM,
        params: [...element.params],
      };
  }
}

/** The polygon again, with the leads where they are now; null when a panel, a hole or a clip point is no longer there. */
export function elementsFromSeed(
  seed: Seed,
  structure: Structure,
  leads: readonly [Extract<Element, { kind: 'lead' }>, Extract<Element, { kind: 'lead' }>],
  clips: readonly (readonly [number, number, number])[],
): Element[] | null {
  const elements: Element[] = [];
  let clip = 0;
  for (const [k, one] of seed.elements.entries()) {
    if (one.kind === 'lead') {
      const lead = leads[k === 0 ? 0 : 1];
      elements.push({ ...lead, params: [lead.leadM + one.beyondM] });
    } else if (one.kind === 'free') elements.push({ kind: 'free', params: [...one.params] });
    else if (one.kind === 'clip') {
      const at = clips[clip];
      clip += 1;
      if (!at) return null;
      elements.push({ kind: 'clip', at, params: [...one.params] });
    } else {
      const frame = structure.frames[one.frame];
      if (!frame?.panel || frame.panel.id !== one.panelId) return null;
      const hole = one.holeId === null ? null : (frame.panel.holes.find(({ id }) => id === one.holeId) ?? undefined);
      if (hole === undefined || (hole === null && frame.panel.rule !== 'drill')) return null;
      elements.push({
        kind: 'hole',
        frame,
        panel: frame.panel,
        hole,
        forward: one.forward,
        stubM: one.stubM,
        params: [...one.params],
      });
    }
  }
  return clip === clips.length ? elements : null;
}
