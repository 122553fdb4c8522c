/** The toolbar beyond files: the format of numbers, sorting, filtering, finding, ready sheets and help. */
import { readySheetIds, describedReadySheet, type ReadySheetId } from "../../ready-sheets/index";
import { defaultUnits } from "../../sheet/unit-choice";
import type { DataTools } from "./grid/data-tools";
import { useMenus } from "./menus";
import { pictureOf } from "./sheet-picture";
import { fillShortcuts } from "./shortcuts";
import { askForSortKeys } from "./sort-dialog";

export interface ToolbarActions {
  /** Runs what a person asked for, and tells them where it fails. */
  attempt(act: () => unknown): void;
  startSheet(id: ReadySheetId, example: boolean): Promise<void>;
  say(words: string): void;
  /** Moves the keyboard back into the cells. */
  focusCells(): void;
}

/** Number formats by what they show of a number that everybody can read. */
const formats: readonly (readonly [code: string, words: string, example: string])[] = [
  ["General", "As typed", "18.5"],
  ["0", "Whole number", "19"],
  ["0.0", "One decimal", "18.5"],
  ["0.00", "Two decimals", "18.50"],
  ["#,##0", "With thousands", "1,850"],
  ["0.0%", "Percent", "18.5%"],
  ["yyyy-mm-dd", "Date", "2026-03-02"],
  ["yyyy-mm-dd hh:mm", "Date and time", "2026-03-02 07:30"],
  ["h:mm:ss", "Clock", "0:00:27"],
  ["@", "Text", "007"],
];

const element = <E extends HTMLElement>(id: string): E => document.getElementById(id) as E;

export function useToolbar(data: DataTools, { attempt, startSheet, say, focusCells }: ToolbarActions): void {
  const inCells = (act: () => unknown) => () => attempt(async () => {
    await act();
    focusCells();
  });
  const press = (id: string, act: () => unknown) => element(id).addEventListener("click", () => attempt(act));

  element("format-menu").append(
    ...formats.map(([code, words, example]) => menuItem([words, example], inCells(() => data.setFormat(code)))),
    menuItem(["One decimal more", ""], inCells(() => data.changeDecimals(1))),
    menuItem(["One decimal fewer", ""], inCells(() => data.changeDecimals(-1))),
  );
  const sortBySelected = (descending: boolean) => inCells(async () => {
    const sortable = data.sortable();
    const words = await sortable?.sort([{ column: sortable.column, descending }], sortable.headed);
    if (words) say(words);
  });
  element("sort-up").addEventListener("click", sortBySelected(false));
  element("sort-down").addEventListener("click", sortBySelected(true));
  press("sort-by", async () => {
    const sortable = data.sortable();
    const chosen = sortable && (await askForSortKeys(element("sorting"), sortable));
    const words = chosen && (await sortable.sort(chosen.keys, chosen.headed));
    if (words) say(words);
    focusCells();
  });
  press("filter", async () => {
    say(await data.toggleFilter());
    focusCells();
  });
  press("find", () => data.find());
  press("shortcuts", () => element<HTMLDialogElement>("shortcut-list").showModal());
  fillShortcuts(element("shortcut-rows"));
  fillReadySheets((id, example) => attempt(() => startSheet(id, example)));
  useMenus();
}

/** The ready sheets, each with a picture and a line, made when the list is first opened. */
function fillReadySheets(start: (id: ReadySheetId, example: boolean) => void): void {
  const menu = element("ready-menu");
  const fill = () => {
    const label = document.createElement("label");
    label.className = "check";
    const example = document.createElement("input");
    example.type = "checkbox";
    label.append(example, " With example figures, invented to see a sheet at work");
    const items = readySheetIds.map((id) => {
      const described = describedReadySheet(id, { units: defaultUnits });
      const words = document.createElement("span");
      const name = document.createElement("strong");
      name.id = `ready-${id}`;
      name.textContent = described.name;
      const purpose = document.createElement("span");
      purpose.id = `ready-${id}-purpose`;
      purpose.textContent = described.purpose;
      words.append(name, purpose);
      const button = document.createElement("button");
      button.type = "button";
      button.className = "ready-sheet";
      button.setAttribute("aria-labelledby", name.id);
      button.setAttribute("aria-describedby", purpose.id);
      button.append(pictureOf(described), words);
      button.addEventListener("click", () => start(id, example.checked));
      return button;
    });
    menu.append(...items, label);
  };
  menu.addEventListener("beforetoggle", () => {
    if (menu.childElementCount === 0) fill();
  });
}

function menuItem([words, example]: readonly [string, string], act: () => void): HTMLElement {
  const item = document.createElement("button");
  item.type = "button";
  item.setAttribute("role", "menuitem");
  const shown = document.createElement("span");
  shown.className = "menu-example";
  shown.textContent = example;
  item.append(words, shown);
  item.addEventListener("click", act);
  return item;
}
