/** The task pane: the units of the workbook, what changed, what the functions refused lately, version and help. */
import { measureLabels, measureNames, unitChoices, unitLabel, type UnitChoice } from "../sheet/unit-choice";
import type { MeasureName } from "../../shared/units";
import type { PanePort } from "./port";
import { changeInWords, measureHints, promise, recalculatedInWords } from "./words";

/** More choices than this are a list rather than buttons. */
const mostButtons = 3;
/** A change that takes longer than this, ms, is announced as under way. */
const noticeAfter = 400;

/** Fills the element with the pane. Returns the way to take the pane off its port again. */
export function mountPane(element: HTMLElement, port: PanePort): () => void {
  const status = make("p", { className: "pane-status" });
  status.setAttribute("role", "status");
  const undo = make("button", { type: "button", className: "pane-undo" }, "Undo");
  const controls = measureNames.map((measure) => [measure, measureControl(measure, choose)] as const);
  const form = make(
    "form",
    { className: "pane-units" },
    heading("Units"),
    make("p", {}, "How this workbook’s numbers are read and shown. A choice applies at once and is kept in the file."),
    ...controls.map(([, control]) => control.element),
  );
  form.addEventListener("submit", (event) => event.preventDefault());
  const problems = make("section", { className: "pane-problems" });
  element.classList.add("pane");
  element.replaceChildren(form, make("div", { className: "pane-result" }, status, undo), problems, about(port));

  let current: UnitChoice | undefined;
  let wanted: UnitChoice | undefined;
  let undoing = false;
  let writing = false;
  let past: UnitChoice[] = [];

  function show(choice: UnitChoice): void {
    for (const [measure, control] of controls) control.show(choice[measure]);
  }

  function showUndo(): void {
    // Not the disabled attribute: it would take the focus away from someone who has just pressed the button.
    undo.setAttribute("aria-disabled", String(past.length === 0));
  }

  function choose(measure: MeasureName, unit: string): void {
    if (!wanted) return;
    wanted = { ...wanted, [measure]: unit };
    undoing = false;
    void settle();
  }

  /** Writes what is wanted until the workbook has it. Choices made meanwhile go into the next round together. */
  async function settle(): Promise<void> {
    if (writing) return;
    writing = true;
    while (current && wanted && !same(current, wanted)) {
      const before = current;
      const after = wanted;
      const isUndo = undoing;
      const notice = setTimeout(() => (status.textContent = "Applying… If a cell is being edited, finish it first."), noticeAfter);
      try {
        const formulas = await port.writeUnits(after);
        current = after;
        past = isUndo ? past.slice(0, -1) : [...past, before];
        status.textContent = `${isUndo ? "Undone. " : ""}${changeInWords(before, after)} ${recalculatedInWords(formulas)} ${promise}`;
      } catch (error) {
        wanted = before;
        show(before);
        status.textContent = `${error instanceof Error ? error.message : String(error)} The units are unchanged.`;
      } finally {
        clearTimeout(notice);
      }
      showUndo();
    }
    writing = false;
  }

  undo.addEventListener("click", () => {
    const previous = past.at(-1);
    if (!previous || writing) return;
    wanted = previous;
    undoing = true;
    show(previous);
    void settle();
  });

  async function read(): Promise<void> {
    form.setAttribute("aria-busy", "true");
    const { choice, note } = await port.readUnits();
    current = choice;
    wanted = choice;
    past = [];
    show(choice);
    showUndo();
    status.textContent = note ?? "Nothing changed so far.";
    for (const [, control] of controls) control.enable();
    form.removeAttribute("aria-busy");
  }

  function showProblems(): void {
    problems.replaceChildren(heading("Recent problems"), problemList(port));
  }

  showUndo();
  showProblems();
  void read();
  const stops = [port.onUnits(() => void read()), port.onProblems(showProblems)];
  return () => {
    for (const stop of stops) stop();
    element.replaceChildren();
  };
}

interface MeasureControl {
  readonly element: HTMLElement;
  show(unit: string): void;
  enable(): void;
}

/** The choices of one measure: buttons where there are few, else a list; disabled until the workbook's units are known. */
function measureControl(measure: MeasureName, choose: (measure: MeasureName, unit: string) => void): MeasureControl {
  const choices: readonly string[] = unitChoices[measure];
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

function same(a: UnitChoice, b: UnitChoice): boolean {
  return measureNames.every((measure) => a[measure] === b[measure]);
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
