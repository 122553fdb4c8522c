/**
 * What is wrong: buttons and boxes of the library have no names, and some no place in the order of the Tab key. Its cells are drawn, so a
 * screen reader cannot read them; the page tells the selected cell in a line of text instead.
 * How it shows: a screen reader says "button" for the list of names, and "edit" for the address of the cell.
 */

const names: readonly [selector: string, name: string][] = [
  ['[data-u-comp="defined-name"] input', "Address of the cell"],
  ['[data-u-comp="defined-name"] a', "Names of cells"],
  ['[data-u-comp="formula-bar"] button', "Stop calculating"],
  [':not([data-slot="dropdown-menu-trigger"]) > [data-u-comp="sheet-bar-append-button"]', "Add a sheet"],
  ['[data-slot="dropdown-menu-trigger"] [data-u-comp="sheet-bar-append-button"]', "All sheets"],
  ['[contenteditable][data-u-comp="editor"]', "Cell. Arrow keys move between cells; F6 leaves the sheet."],
];

/** Keeps the names in place while the library redraws its elements. `focus` moves the keyboard into the cells. */
export function nameParts(container: HTMLElement, focus: () => void): void {
  const name = () => {
    for (const [selector, label] of names) {
      for (const part of container.querySelectorAll(selector)) if (part.getAttribute("aria-label") !== label) part.setAttribute("aria-label", label);
    }
    for (const link of container.querySelectorAll('a[type="button"]:not([role])')) {
      link.setAttribute("role", "button");
      link.setAttribute("tabindex", "0");
    }
    // The menu's own button stands inside this element, which may not say so itself.
    for (const wrapper of container.querySelectorAll("div[aria-haspopup]")) {
      wrapper.removeAttribute("aria-haspopup");
      wrapper.removeAttribute("aria-expanded");
    }
    for (const editor of container.querySelectorAll('[contenteditable][data-u-comp="editor"]:not([role])')) editor.setAttribute("role", "textbox");
    // A positive tab index would come before everything else on the page.
    for (const canvas of container.querySelectorAll<HTMLCanvasElement>('canvas[tabindex="1"]')) canvas.tabIndex = canvas.id.includes("sheet-main") ? 0 : -1;
    for (const canvas of container.querySelectorAll<HTMLCanvasElement>('canvas[id*="sheet-main"]:not([role])')) {
      canvas.setAttribute("role", "application");
      canvas.setAttribute("aria-label", "Cells. Arrow keys move, F6 leaves the sheet. The line above the sheet tells the selected cell.");
      canvas.addEventListener("focus", focus);
    }
    document.querySelectorAll("section[data-react-aria-top-layer]").forEach((region, index) => {
      const label = `Messages of the grid ${index + 1}`;
      if (region.getAttribute("aria-label") !== label) region.setAttribute("aria-label", label);
    });
  };
  name();
  // The library also puts elements of its own beside the container.
  new MutationObserver(name).observe(document.body, { subtree: true, childList: true, attributes: true, attributeFilter: ["tabindex", "aria-expanded"] });
}
