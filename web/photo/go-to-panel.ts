/** Marks the part of a panel that belongs to the chosen pin or ball. */
export const PANEL_MARK = { 'data-chosen-panel': true } as const;

/**
 * Enter or Space on a pin or ball (a click without a pointer) moves the focus to what can be done with it: by Tab the way there leads over
 * the other pins, which would each be chosen in passing.
 */
export const goToPanel = (event: React.MouseEvent): void => {
  if (event.detail !== 0) return;
  // The panel shows the chosen one only after the choice is drawn.
  requestAnimationFrame(() => {
    const ways = 'button:enabled, input:enabled';
    document.querySelector('[data-chosen-panel]')?.querySelector<HTMLElement>(ways)?.focus();
  });
};
