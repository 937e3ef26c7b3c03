// Brings a thing into sight inside its own scroller, and moves nothing else: the browser's own way also
// scrolls whatever lies around it.

/** Into the middle of a row that scrolls sideways. */
export function intoRow(element: HTMLElement | null): void {
  const row = element?.parentElement;
  if (!element || !row) return;
  const own = element.getBoundingClientRect();
  const around = row.getBoundingClientRect();
  row.scrollLeft += own.left + own.width / 2 - (around.left + around.width / 2);
}

/** To the top of the page that it stands in. */
export function toTop(element: HTMLElement | null): void {
  const pane = element?.closest<HTMLElement>('.pane');
  if (!element || !pane) return;
  pane.scrollTop += element.getBoundingClientRect().top - pane.getBoundingClientRect().top - 4;
}
