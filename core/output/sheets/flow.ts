import type { Vec2 } from '../../base/vec';
import { type PrintContext, titleFields } from './context';
import type { Mark, Sheet } from './marks';
import { checkLine, frameBox, framedSheet, type Paper, TITLE_BLOCK, type TitleFields } from './paper';

/** A piece of a page: it stays whole and is moved to the next sheet where it does not fit. */
export interface Block {
  readonly heightMm: number;
  /** A heading is not left alone at the foot of a sheet. */
  readonly withNext?: true;
  /** Begins a sheet of its own. */
  readonly newSheet?: true;
  /** Of a row of a table: the head that is drawn again where a sheet begins with this row. */
  readonly head?: Block;
  draw(at: Vec2): readonly Mark[];
}

const INSIDE_MM = 7;
/** Left of the title block's top for the check line with its words. */
const FOOT_MM = 12;

/** Width that blocks may take on a sheet of this paper, upright. */
export const flowWidth = (context: Pick<PrintContext, 'paper'>): number =>
  frameBox({ size: context.paper, landscape: false }).widthMm - 2 * INSIDE_MM;

interface Page {
  readonly marks: readonly Mark[];
}

type OwnFields = Pick<TitleFields, 'sheet' | 'subject' | 'measured' | 'scale'>;

/** Blocks laid out from the top of framed sheets, each sheet with title block and check line. */
export function flowSheets(blocks: readonly Block[], own: OwnFields, context: PrintContext): Sheet[] {
  const pages = flowPages(blocks, context);
  return framedPages(pages, own, context, { from: 1, of: pages.length });
}

/** What stands on each page, before it is known how many there are. */
export function flowPages(blocks: readonly Block[], context: PrintContext): readonly Page[] {
  const { x, top, foot } = roomOf(context);
  const pages: Mark[][] = [];
  let open: Mark[] | null = null;
  let y = top;
  blocks.forEach((block, i) => {
    if (!open || block.newSheet || (y + togetherMm(blocks, i) > foot && y > top)) {
      open = [];
      pages.push(open);
      y = top;
      if (block.head) {
        open.push(...block.head.draw([x, y]));
        y += block.head.heightMm;
      }
    }
    open.push(...block.draw([x, y]));
    y += block.heightMm;
  });
  return pages.map((marks) => ({ marks }));
}

/** Height of a block with those that it must not be parted from. */
function togetherMm(blocks: readonly Block[], from: number): number {
  let heightMm = 0;
  for (let i = from; i < blocks.length; i += 1) {
    const block = blocks[i] as Block;
    heightMm += block.heightMm;
    if (!block.withNext) break;
  }
  return heightMm;
}

/** Pages in their frames; they may follow other sheets of one document. */
export function framedPages(
  pages: readonly Page[],
  own: OwnFields,
  context: PrintContext,
  { from, of }: { readonly from: number; readonly of: number },
): Sheet[] {
  const { paper, x, foot } = roomOf(context);
  return pages.map(({ marks }, i) =>
    framedSheet(paper, titleFields(context, { ...own, number: from + i, of }), context.lettering, [
      ...marks,
      ...checkLine([x, foot + FOOT_MM - 4]),
    ]),
  );
}

function roomOf(context: Pick<PrintContext, 'paper'>) {
  const paper: Paper = { size: context.paper, landscape: false };
  const inner = frameBox(paper);
  return {
    paper,
    x: inner.x + INSIDE_MM,
    top: inner.y + INSIDE_MM,
    foot: inner.y + inner.heightMm - TITLE_BLOCK.heightMm - FOOT_MM,
  };
}
