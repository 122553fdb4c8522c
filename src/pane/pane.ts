/** The task pane: ready sheets, the units of the workbook, what changed, what the functions refused lately, version and help. */
import { defaultUnits, measureLabels, measureNames, unitChoices, unitLabel, type UnitChoice } from "../sheet/unit-choice";
import type { MeasureName } from "../../shared/units";
import { describedReadySheet, readySheetIds, type ReadySheetId } from "../ready-sheets/index";
import type { PanePort } from "./port";
import { changeInWords, convertedInWords, measureHints, offerInWords, promise, recalculatedInWords } from "./words";

/** More choices than this are a list rather than buttons. */
const mostButtons = 3;
/** A change that takes longer than this, ms, is announced as under way. */
const noticeAfter = 400;

/** Something that can be undone: the way back, and what is then said. Throws a full sentence where it could not be undone. */
type Step = () => Promise<string>;

/** Fills the element with the pane. Returns the way to take the pane off its port again. */
export function mountPane(element: HTMLElement, port: PanePort): () => void {
  const status = make("p", { className: "pane-status" });
  status.setAttribute("role", "status");
  const undo = make("button", { type: "button", className: "pane-undo" }, "Undo");
  const offer = make("button", { type: "button", className: "pane-undo", hidden: true });
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
  const readySheets = readySheetList((id, example) => void start(id, example));
  element.replaceChildren(readySheets, form, make("div", { className: "pane-result" }, status, make("div", { className: "pane-answers" }, offer, undo)), problems, about(port));

  let current: UnitChoice | undefined;
  let wanted: UnitChoice | undefined;
  let writing = false;
  let past: Step[] = [];

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
    void settle();
  }

  /** Does one thing at a time, with a word where it takes long; answers whether it worked. What fails is told and changes nothing else. */
  async function attempt(act: () => Promise<string>, failed = ""): Promise<boolean> {
    const notice = setTimeout(() => (status.textContent = "Applying… If a cell is being edited, finish it first."), noticeAfter);
    offer.hidden = true;
    try {
      const words = await act();
      clearTimeout(notice);
      status.textContent = words;
      return true;
    } catch (error) {
      clearTimeout(notice);
      status.textContent = `${error instanceof Error ? error.message : String(error)}${failed}`;
      return false;
    } finally {
      showUndo();
    }
  }

  /** Writes what is wanted until the workbook has it. Choices made meanwhile go into the next round together. */
  async function settle(): Promise<void> {
    if (writing) return;
    writing = true;
    while (current && wanted && !same(current, wanted)) {
      const before = current;
      const after = wanted;
      const written = await attempt(async () => {
        const words = await write(before, after);
        past.push(async () => {
          const undone = await write(after, before);
          wanted = before;
          show(before);
          return `Undone. ${undone}`;
        });
        return words;
      }, " The units are unchanged.");
      if (written) await offerConversion(before, after);
      else {
        wanted = before;
        show(before);
      }
    }
    writing = false;
  }

  async function write(before: UnitChoice, after: UnitChoice): Promise<string> {
    const formulas = await port.writeUnits(after);
    current = after;
    return `${changeInWords(before, after)} ${recalculatedInWords(formulas)} ${promise}`;
  }

  /** Numbers in ready sheets are known by their unit, so these can be converted for the person. */
  async function offerConversion(before: UnitChoice, after: UnitChoice): Promise<void> {
    const numbers = await port.convertInputs(before, after, true).then((found) => found.numbers, () => 0);
    offer.hidden = numbers === 0;
    offer.textContent = offerInWords(numbers);
    offer.onclick = () => {
      // The button goes; the way back is next to it.
      undo.focus();
      void alone(async () => {
        const words = convertedInWords(await port.convertInputs(before, after), after, before);
        past.push(async () => `Undone. ${convertedInWords(await port.convertInputs(after, before), before, after)}`);
        return words;
      });
    };
  }

  async function start(id: ReadySheetId, example: boolean): Promise<void> {
    await alone(async () => {
      const sheet = await port.startSheet(id, example);
      past.push(async () => {
        await port.removeStarted(sheet);
        return `Undone. The sheet “${sheet}” is gone.`;
      });
      return `The sheet “${sheet}” is ready${example ? ", with invented figures" : ""}. Type into the cells with a border.`;
    });
  }

  /** Not while something else is under way: a second press would do it twice. */
  async function alone(act: () => Promise<string>): Promise<void> {
    if (writing || !current) return;
    writing = true;
    await attempt(act);
    writing = false;
    // A choice of units made meanwhile.
    await settle();
  }

  undo.addEventListener("click", () => {
    const step = past.at(-1);
    if (!step) return;
    void alone(async () => {
      const words = await step();
      past = past.slice(0, -1);
      return words;
    });
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
    heading("Start a sheet"),
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
