/** What the pane shows, and what a person can press in it. It decides nothing. */
import { defaultUnits, measureLabels, measureNames, unitChoices, unitLabel, type UnitChoice } from "../sheet/unit-choice";
import type { MeasureName } from "../../shared/units";
import { describedReadySheet, readySheetIds, type ReadySheetId } from "../ready-sheets/index";
import type { PanePort } from "./port";
import { measureHints } from "./words";

/** More choices than this are a list rather than buttons. */
const mostButtons = 3;

/** What a person does in the pane. */
export interface PaneActions {
  choose(measure: MeasureName, unit: string): void;
  start(id: ReadySheetId, example: boolean): void;
  undo(): void;
}

export class PaneView {
  private readonly status = make("p", { className: "pane-status" });
  private readonly undo = make("button", { type: "button", className: "pane-undo" }, "Undo");
  private readonly offered = make("button", { type: "button", className: "pane-undo", hidden: true });
  private readonly problems = make("section", { className: "pane-problems" });
  private readonly controls: readonly (readonly [MeasureName, MeasureControl])[];
  private readonly form: HTMLFormElement;
  private readonly pages: Pages | undefined;

  constructor(element: HTMLElement, private readonly port: PanePort, actions: PaneActions) {
    this.status.setAttribute("role", "status");
    this.undo.addEventListener("click", () => actions.undo());
    this.undo.hidden = port.oneUndo === true;
    this.controls = measureNames.map((measure) => [measure, measureControl(measure, (...chosen) => actions.choose(...chosen))]);
    this.form = make(
      "form",
      { className: "pane-units" },
      heading("Units"),
      make("p", {}, "How this workbook’s numbers are read and shown. A choice applies at once and is kept in the file."),
      ...this.controls.map(([, control]) => control.element),
    );
    this.form.addEventListener("submit", (event) => event.preventDefault());
    element.classList.add("pane");
    const result = make("div", { className: "pane-result" }, this.status, make("div", { className: "pane-answers" }, this.offered, this.undo));
    if (!port.startSheet) {
      element.replaceChildren(this.form, result, this.problems, about(port));
      return;
    }
    const readySheets = readySheetList((...started) => actions.start(...started));
    this.pages = new Pages({ units: ["Units", make("div", {}, this.form, this.problems)], "ready sheets": ["Ready sheets", readySheets] });
    element.replaceChildren(this.pages.tabs, ...this.pages.panels, result, about(port));
  }

  /** Turns to a page of the pane, where it has several. */
  showPage(page: PanePage): void {
    this.pages?.show(page);
  }

  say(words: string): void {
    this.status.textContent = words;
  }

  showUnits(choice: UnitChoice): void {
    for (const [measure, control] of this.controls) control.show(choice[measure]);
  }

  /** Until the workbook's units are known, none can be chosen. */
  showBusy(busy: boolean): void {
    if (busy) return this.form.setAttribute("aria-busy", "true");
    for (const [, control] of this.controls) control.enable();
    this.form.removeAttribute("aria-busy");
  }

  showUndo(possible: boolean): void {
    // Not the disabled attribute: it would take the focus away from someone who has just pressed the button.
    this.undo.setAttribute("aria-disabled", String(!possible));
  }

  /** Offers to do something; the way back is next to it when the button goes. */
  offer(words: string, accept: () => void): void {
    this.offered.hidden = false;
    this.offered.textContent = words;
    this.offered.onclick = () => {
      this.undo.focus();
      accept();
    };
  }

  withdrawOffer(): void {
    this.offered.hidden = true;
  }

  showProblems(): void {
    this.problems.replaceChildren(heading("Recent problems"), problemList(this.port));
  }
}

export type PanePage = "units" | "ready sheets";

/** Pages under tabs, one in sight; the arrow keys go from tab to tab. */
class Pages {
  readonly tabs = make("div", { className: "pane-tabs" });
  readonly panels: readonly HTMLElement[];
  private readonly all: readonly { readonly page: PanePage; readonly tab: HTMLElement; readonly panel: HTMLElement }[];

  constructor(pages: Readonly<Record<PanePage, readonly [title: string, content: HTMLElement]>>) {
    this.all = (Object.keys(pages) as PanePage[]).map((page, index) => {
      const [title, panel] = pages[page];
      const tab = make("button", { type: "button", className: "pane-tab", id: `pane-tab-${index}` }, title);
      panel.id = `pane-page-${index}`;
      tab.setAttribute("role", "tab");
      tab.setAttribute("aria-controls", panel.id);
      panel.setAttribute("role", "tabpanel");
      panel.setAttribute("aria-labelledby", tab.id);
      tab.addEventListener("click", () => this.show(page));
      return { page, tab, panel };
    });
    this.panels = this.all.map(({ panel }) => panel);
    this.tabs.setAttribute("role", "tablist");
    this.tabs.append(...this.all.map(({ tab }) => tab));
    this.tabs.addEventListener("keydown", ({ key }) => {
      const step = { ArrowRight: 1, ArrowLeft: this.all.length - 1 }[key];
      if (step === undefined) return;
      const next = this.all[(this.all.findIndex(({ tab }) => tab === document.activeElement) + step) % this.all.length]!;
      this.show(next.page);
      next.tab.focus();
    });
    this.show("units");
  }

  show(wanted: PanePage): void {
    for (const { page, tab, panel } of this.all) {
      tab.setAttribute("aria-selected", String(page === wanted));
      tab.tabIndex = page === wanted ? 0 : -1;
      panel.hidden = page !== wanted;
    }
  }
}

/** The ready sheets, each with a button and what it is for. */
function readySheetList(start: (id: ReadySheetId, example: boolean) => void): HTMLElement {
  const example = make("input", { type: "checkbox", id: "pane-example" });
  const items = readySheetIds.map((id) => {
    const { name, purpose } = describedReadySheet(id, { units: defaultUnits });
    const words = make("p", { className: "pane-hint", id: `pane-ready-sheet-${id}` }, purpose);
    const button = make("button", { type: "button", className: "pane-start" }, name);
    button.setAttribute("aria-describedby", words.id);
    button.addEventListener("click", () => start(id, example.checked));
    return make("li", {}, button, words);
  });
  const note = make("p", { className: "pane-hint", id: "pane-example-hint" }, "Invented, to see a sheet at work.");
  example.setAttribute("aria-describedby", note.id);
  return make(
    "section",
    { className: "pane-ready-sheets" },
    heading("Ready sheets"),
    make("p", {}, "Adds a new sheet; what is in the workbook stays as it is."),
    make("ul", {}, ...items),
    make("label", {}, example, "With example figures"),
    note,
  );
}

interface MeasureControl {
  readonly element: HTMLElement;
  show(unit: string): void;
  enable(): void;
}

/** The choices of one measure: buttons where there are few, else a list; disabled until the workbook's units are known. */
function measureControl(measure: MeasureName, choose: (measure: MeasureName, unit: string) => void): MeasureControl {
  const choices = unitChoices(measure);
  const hint = make("p", { className: "pane-hint", id: `pane-${measure}-hint` }, measureHints[measure]);
  const group = make("fieldset", { disabled: true }, make("legend", {}, measureLabels[measure]), hint);
  const enable = () => (group.disabled = false);
  if (choices.length > mostButtons) {
    const list = make("select", { name: measure }, ...choices.map((unit) => make("option", { value: unit }, unitLabel(measure, unit))));
    list.setAttribute("aria-label", measureLabels[measure]);
    list.setAttribute("aria-describedby", hint.id);
    list.addEventListener("change", () => choose(measure, list.value));
    group.append(list);
    return { element: group, enable, show: (unit) => (list.value = unit) };
  }
  group.setAttribute("aria-describedby", hint.id);
  const buttons = choices.map((unit) => make("input", { type: "radio", name: measure, value: unit }));
  for (const button of buttons) {
    button.addEventListener("change", () => choose(measure, button.value));
    group.append(make("label", {}, button, unitLabel(measure, button.value)));
  }
  return {
    element: group,
    enable,
    show: (unit) => {
      for (const button of buttons) button.checked = button.value === unit;
    },
  };
}

function problemList(port: PanePort): HTMLElement {
  const problems = port.recentProblems();
  if (problems.length === 0) return make("p", {}, "No function has refused anything since this workbook was opened.");
  const head = ["Function", "Message", "Count"].map((title) => {
    const cell = make("th", {}, title);
    cell.scope = "col";
    return cell;
  });
  const rows = problems.map(({ functionName, message, count }) => {
    // A long name breaks after a dot before it breaks within a word.
    const parts = functionName.split(/(?<=\.)/).flatMap((part) => [part, document.createElement("wbr")]);
    const name = make("th", {}, ...parts);
    name.scope = "row";
    return make("tr", {}, name, make("td", {}, message), make("td", {}, String(count)));
  });
  return make("table", {}, make("thead", {}, make("tr", {}, ...head)), make("tbody", {}, ...rows));
}

function about(port: PanePort): HTMLElement {
  const help = make("a", { href: port.helpAddress, target: "_blank", rel: "noopener" }, "Help (opens a new window)");
  return make("footer", {}, `Pucksheet ${port.version} · `, help);
}

function heading(text: string): HTMLElement {
  return make("h2", {}, text);
}

function make<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  properties: Partial<HTMLElementTagNameMap[Tag]>,
  ...content: (Node | string)[]
): HTMLElementTagNameMap[Tag] {
  const element = Object.assign(document.createElement(tag), properties);
  element.append(...content);
  return element;
}
