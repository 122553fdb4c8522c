/** Lists under the buttons of the toolbar. The browser opens and closes them; here they are placed, and worked with the arrow keys. */

const margin = 8;

export function useMenus(): void {
  for (const menu of document.querySelectorAll<HTMLElement>(".menu[popover]")) {
    const opener = document.querySelector<HTMLElement>(`[popovertarget="${menu.id}"]`)!;
    opener.setAttribute("aria-haspopup", menu.getAttribute("role") === "menu" ? "menu" : "true");
    opener.setAttribute("aria-expanded", "false");
    menu.addEventListener("toggle", (event) => {
      const open = (event as ToggleEvent).newState === "open";
      opener.setAttribute("aria-expanded", String(open));
      if (!open) return;
      place(menu, opener);
      items(menu)[0]?.focus();
    });
    menu.addEventListener("keydown", (event) => step(menu, event));
    menu.addEventListener("click", (event) => {
      if ((event.target as Element).closest("button, a")) menu.hidePopover();
    });
  }
}

function items(menu: HTMLElement): HTMLElement[] {
  return [...menu.querySelectorAll<HTMLElement>("button, a, input")];
}

function place(menu: HTMLElement, opener: HTMLElement): void {
  const { left, bottom } = opener.getBoundingClientRect();
  const { style } = menu;
  style.top = `${bottom + 2}px`;
  style.left = `${Math.max(margin, Math.min(left, innerWidth - menu.offsetWidth - margin))}px`;
  style.maxHeight = `${innerHeight - bottom - margin}px`;
}

function step(menu: HTMLElement, event: KeyboardEvent): void {
  const all = items(menu);
  const at = all.indexOf(document.activeElement as HTMLElement);
  const next = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: all.length - 1 }[event.key];
  if (next === undefined) return;
  event.preventDefault();
  all[(next + all.length) % all.length]?.focus();
}
