/** The keys of the page: those that the page itself answers, and those of the cells, for the list under Help. */

const keys: readonly (readonly [keys: string, what: string])[] = [
  ["Ctrl+O", "Open a file"],
  ["Ctrl+S", "Save"],
  ["Ctrl+P", "Print"],
  ["Ctrl+Z, Ctrl+Y", "Undo, redo"],
  ["Ctrl+F, Ctrl+H", "Find, replace"],
  ["Ctrl+Shift+L", "Put a filter on the rows, or take it away"],
  ["Ctrl+C, Ctrl+X, Ctrl+V", "Copy, cut, paste"],
  ["Ctrl+B, Ctrl+I, Ctrl+U", "Bold, italic, underlined"],
  ["F2", "Edit the cell"],
  ["Enter, Tab", "Take what was typed, and go on below or to the right"],
  ["Escape", "Leave the cell as it was"],
  ["Tab, in a formula", "Take the name of a function from the list"],
  ["Arrow keys", "Go from cell to cell; with Shift, select; with Ctrl, to the edge of what is filled"],
  ["Ctrl+A", "Select everything"],
  ["Delete", "Empty the selected cells"],
  ["F6", "From the toolbar to the cells to the pane, and round again"],
];

export function fillShortcuts(rows: HTMLElement): void {
  rows.append(
    ...keys.map(([pressed, what]) => {
      const row = document.createElement("tr");
      const head = document.createElement("th");
      head.scope = "row";
      head.textContent = pressed;
      const cell = document.createElement("td");
      cell.textContent = what;
      row.append(head, cell);
      return row;
    }),
  );
}
