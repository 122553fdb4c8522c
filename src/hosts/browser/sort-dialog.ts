/** The dialog that sorts rows by several columns. Every column can be chosen, also one that has no heading. */
import type { Sortable, SortKey } from "./grid/data-tools";

/** Answers what to sort by, or undefined where the person stays. */
export async function askForSortKeys(dialog: HTMLDialogElement, sortable: Sortable): Promise<{ keys: SortKey[]; headed: boolean } | undefined> {
  const headed = dialog.querySelector<HTMLInputElement>("#sorting-headed")!;
  const list = dialog.querySelector<HTMLElement>("#sorting-keys")!;
  const more = dialog.querySelector<HTMLButtonElement>("#sorting-more")!;
  headed.checked = sortable.headed;
  headed.parentElement!.hidden = sortable.isTable;
  const add = (column: number) => {
    list.append(keyLine(list.childElementCount, column, sortable.columns(headed.checked)));
    more.disabled = list.childElementCount >= sortable.columns(headed.checked).length;
  };
  const chosen = () => [...list.querySelectorAll<HTMLSelectElement>(".sort-column")].map(({ value }) => Number(value));
  list.replaceChildren();
  add(sortable.column);
  headed.onchange = () => {
    const columns = chosen();
    list.replaceChildren();
    columns.forEach(add);
  };
  more.onclick = () => add(sortable.columns(headed.checked).find(({ column }) => !chosen().includes(column))!.column);
  dialog.returnValue = "";
  dialog.showModal();
  await new Promise((closed) => dialog.addEventListener("close", closed, { once: true }));
  if (dialog.returnValue !== "sort") return undefined;
  const orders = [...list.querySelectorAll<HTMLSelectElement>(".sort-order")].map(({ value }) => value);
  return { headed: headed.checked, keys: chosen().map((column, index) => ({ column, descending: orders[index] === "descending" })) };
}

function keyLine(index: number, column: number, columns: ReturnType<Sortable["columns"]>): HTMLElement {
  const line = document.createElement("li");
  const which = selection("sort-column", index === 0 ? "Sort by" : "Then by", columns.map(({ column: value, name }) => [String(value), name]));
  which.value = String(column);
  const order = selection("sort-order", "Order", [["ascending", "smallest or A first"], ["descending", "largest or Z first"]]);
  line.append(which, " ", order);
  return line;
}

function selection(className: string, label: string, choices: readonly (readonly [value: string, words: string])[]): HTMLSelectElement {
  const made = document.createElement("select");
  made.className = className;
  made.setAttribute("aria-label", label);
  made.append(...choices.map(([value, words]) => new Option(words, value)));
  return made;
}
