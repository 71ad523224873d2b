/** The step that is shown in the strip takes the focus: from there the arrow keys lead through the rehearsal. */
export function focusStrip(): void {
  requestAnimationFrame(() => document.querySelector<HTMLElement>('.rehearsal-strip [aria-current="step"]')?.focus());
}
