/** The spreadsheet page: loads the functions, shows the grid, opens and saves files. */
import { mountPane } from "../../pane/pane";
import "../../pane/pane.css";
import { functionsLink, type FunctionsLink } from "../../sheet/bundle-interface";
import type { ChangedUnits } from "../../pane/port";
import { openLog } from "../../log-file/open-log";
import type { Started } from "../../pane/port";
import { startedInWords } from "../../pane/words";
import type { UnitChoice } from "../../sheet/unit-choice";
import { startingFigures, takesLog, type ReadySheetId } from "../../ready-sheets/index";
import { ChartPanel } from "./chart-panel";
import { FileProblem } from "../../xlsx/file-problem";
import { copyName, plainName } from "./file-names";
import { canPick, fileHandleOf, FilePlace, pickToOpen, pickToSave } from "./file-place";
import { showKeepingDiffering } from "./first-results";
import { Keeping } from "./keeping";
import { WorkKeeper, type Work } from "./kept-work";
import { offerLeftWork } from "./left-work";
import { OpenedFile } from "./opened-file";
import { usualPaper, type Paper } from "./paper";
import { openInWorker } from "./xlsx-work";
import type { CopyForm } from "./xlsx-worker";
import type { OpenedWorkbook } from "../../xlsx/open-workbook";
import type { SavedCopy } from "../../xlsx/save-copy";
import { withValues } from "../../xlsx/values-only";
import { fullName, loadFunctionMetadata } from "./function-metadata";
import { Grid } from "./grid/grid";
import { useToolbar } from "./toolbar";
import "./page.css";
import { emptySheet, type Area, type Workbook } from "../../xlsx/workbook";
import { demoWorkbook, withConvertedInputs, withFittedResults, withoutReadySheets, withReadySheet } from "../../xlsx/ready-sheets";
import { WorkbookSettings } from "./workbook-settings";
import { addedInWords, cellInWords } from "./cell-words";
import { unitOfCell } from "./cell-unit";

const element = <E extends HTMLElement>(id: string): E => document.getElementById(id) as E;

/** Beyond this the grid is too slow to work in. */
const mostCells = 600_000;

/** Where charts leave little room to the cells. */
const small = "(max-width: 1100px), (max-height: 600px)";

/** A phone, or a window as narrow. */
const narrow = "(max-width: 760px)";

/** Pixels for cells and charts side by side. */
const leastWidthBeside = 1000;

/** A file of the workbook, and how often something was changed until then. */
interface Made {
  readonly saved: SavedCopy;
  readonly changes: number;
}

class Page {
  private fileName = "Demo log";
  private changed = false;
  /** How often something was changed, so that what is changed while a copy is made does not count as saved. */
  private changes = 0;
  private file: OpenedFile | undefined;
  /** Where Save writes to; without it, it downloads. */
  private place: FilePlace | undefined;
  /** The person has agreed that Save writes there. */
  private mayReplace = false;
  private readonly settings: WorkbookSettings;
  private readonly charts: ChartPanel;
  private keeping: Keeping | undefined;

  constructor(
    private readonly grid: Grid,
    private readonly functionNames: ReadonlySet<string>,
    link: FunctionsLink,
  ) {
    this.settings = new WorkbookSettings(link, (before, after, text) => this.changeUnits(before, after, text));
    this.charts = new ChartPanel(grid, element("charts"), (has) => (element("toggle-charts").hidden = !has));
    grid.onSelection(() => {
      this.tellCell();
      this.charts.refresh();
    });
    grid.onChange(() => this.setChanged(true));
    grid.onOutside((units) => {
      this.settings.use(units as string | undefined);
      this.setChanged(true);
      void grid.recalculate();
    });
    grid.onWords((words) => this.notice(words));
    const press = (id: string, act: () => unknown) => element(id).addEventListener("click", () => void this.attempt(act));
    press("new", () => this.start("New sheet", { sheets: [emptySheet("Sheet1")], names: [] }));
    press("open", () => this.open());
    press("save", () => this.save());
    press("save-to", () => this.saveTo());
    press("rename", () => this.rename());
    press("save-xlsx", () => this.saveXlsx());
    press("save-plain", () => this.saveXlsx("for other programs"));
    press("save-csv", () => this.saveCsv());
    press("print", () => this.print());
    press("undo", () => grid.undo());
    press("redo", () => grid.redo());
    press("notice-close", () => this.notice());
    press("toggle-pane", () => this.togglePane());
    press("toggle-charts", () => this.toggleCharts());
    useToolbar(grid.data, {
      attempt: (act) => void this.attempt(act),
      startSheet: async (id, example) => this.notice(startedInWords(await this.startSheet(id, example), example), "information"),
      say: (words) => this.notice(words, "information"),
      focusCells: () => grid.focus(),
    });
    element<HTMLInputElement>("file").addEventListener("change", (event) => {
      const input = event.target as HTMLInputElement;
      const file = input.files?.[0];
      // Cleared so that choosing the same file again is a change again.
      input.value = "";
      if (file) void this.attempt(() => this.openFile(file));
    });
    element("save-to").hidden = !canPick();
    this.acceptDrops();
    this.placeCharts();
    addEventListener("keydown", (event) => this.leaveRegion(event), true);
    addEventListener("keydown", (event) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const acts: Partial<Record<string, () => unknown>> = {
        s: () => this.save(),
        S: () => (canPick() ? this.saveTo() : this.saveXlsx()),
        o: () => this.open(),
        p: () => this.print(),
        f: () => grid.data.find(),
        h: () => grid.data.find(true),
        L: () => element("filter").click(),
      };
      const act = acts[event.key];
      if (!act) return;
      event.preventDefault();
      event.stopPropagation();
      void this.attempt(act);
    }, true);
    addEventListener("beforeunload", (event) => {
      if (this.changed && !this.keeping?.isKept) event.preventDefault();
    });
    // In a small window the cells come first.
    if (matchMedia(small).matches) this.toggleCharts();
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", (query) => grid.setDark(query.matches));
  }

  /** Fills the pane, once the units of the first workbook are known. */
  showPane(): void {
    mountPane(element("pane"), this.settings.panePort);
  }

  /** Keeps the work from now on, and offers what earlier pages have left behind. */
  async keepWork(): Promise<void> {
    const keeper = await WorkKeeper.open();
    if (!keeper) return;
    const work = async (): Promise<Work> => {
      await this.grid.settled();
      const { fileName, grid, settings, file, place } = this;
      const workbook = { ...grid.workbook(), units: settings.text };
      return { fileName, workbook, inSight: grid.sheetInSight(), file: file?.state(grid.journal()), place: place?.state };
    };
    this.keeping = new Keeping(keeper, work, (words) => this.notice(words));
    if (this.changed) this.keeping.changed();
    await offerLeftWork(element("left"), keeper, {
      goOn: (id) => this.attempt(() => this.goOnWith(keeper, id)),
      mayDiscard: async () => (await this.answerOf("discard")) === "discard",
    });
  }

  private async goOnWith(keeper: WorkKeeper, id: string): Promise<void> {
    const work = await keeper.read(id);
    if (!work) return this.notice("Another page has gone on with that work.", "information");
    const { fileName, workbook, inSight, file, place } = work;
    const shown = await this.replaceBy(fileName, workbook, async () => {
      this.file = file && new OpenedFile(file);
      this.place = place && FilePlace.of(place);
      this.mayReplace = false;
      await this.grid.open(workbook);
      this.grid.show(inSight);
    });
    if (!shown) return;
    this.setChanged(true);
    // Only now is it this page's own.
    if (await this.keeping?.now()) await keeper.forget(id);
  }

  /** Shows a workbook under a name, after asking about unsaved changes; false where the person stays. */
  async start(name: string, workbook: Workbook): Promise<boolean> {
    return this.replaceBy(name, workbook, async () => {
      this.file = undefined;
      this.place = undefined;
      await this.grid.open(workbook);
    });
  }

  /** Shows the workbook of a file, of whose results none is to change unseen. Gives what to tell the person; undefined where they stay. */
  private async startFile(name: string, bytes: Uint8Array, opened: OpenedWorkbook, place: FilePlace | undefined): Promise<string[] | undefined> {
    const { workbook, isOutdated, inSight, unshown, notes } = opened;
    const hidden = withoutReadySheets(unshown, workbook);
    const told = hidden.length === 0 ? [...notes] : [`This page does not show ${listed(hidden)} of ${name}; a copy saved here keeps them.`, ...notes];
    const show = async (shown: Workbook): Promise<Workbook> => {
      await this.grid.open(shown);
      return { ...this.grid.workbook(), units: workbook.units };
    };
    const started = await this.replaceBy(name, workbook, async () => {
      const { calculated, notes: more } = isOutdated
        ? { calculated: await show(workbook), notes: [] }
        : await showKeepingDiffering(workbook, this.functionNames, show);
      told.push(...more);
      this.grid.show(inSight);
      this.file = new OpenedFile({ fileName: name, bytes, before: calculated, journal: [] });
      this.place = place;
      this.mayReplace = false;
    });
    return started ? told : undefined;
  }

  private async replaceBy(name: string, { units }: Workbook, show: () => Promise<void>): Promise<boolean> {
    if (!(await this.mayLeave())) return false;
    const grid = element("grid");
    grid.setAttribute("aria-busy", "true");
    const note = this.settings.takeUp(units);
    this.fileName = name;
    element("file-name").textContent = name;
    this.notice(note);
    await show();
    grid.setAttribute("aria-busy", "false");
    this.setChanged(false);
    return true;
  }

  private async changeUnits(before: UnitChoice, after: UnitChoice, text: string): Promise<ChangedUnits> {
    const { workbook, ...converted } = withConvertedInputs(this.grid.workbook(), before, after);
    await this.grid.become(withFittedResults(workbook, before, after) ?? workbook, { outside: { was: this.settings.text, is: text } });
    return { converted, formulas: this.grid.countOurs() };
  }

  private async startSheet(id: ReadySheetId, example: boolean): Promise<Started> {
    const before = this.grid.workbook();
    const inSight = before.sheets.find(({ name }) => name === this.grid.sheetInSight());
    const units = this.settings.choice;
    const log = takesLog(id) && !example && inSight ? openLog(inSight.cells.map((line) => line?.map((cell) => cell?.value)), units) : undefined;
    const { workbook, sheet } = withReadySheet(before, id, { units, figures: startingFigures(example, log) });
    await this.grid.become(workbook, { sheet });
    return { sheet, ...(log && { logRows: log.rows }) };
  }

  private async open(): Promise<void> {
    const input = element<HTMLInputElement>("file");
    if (!canPick()) return input.click();
    const handle = await pickToOpen(input.accept.split(","));
    if (handle) await this.openFile(await handle.getFile(), handle);
  }

  /** `handle` leads to the file on the disk, where the browser gives one. */
  private async openFile(file: File, handle?: FileSystemFileHandle): Promise<void> {
    if (/\.xls[xm]$/i.test(file.name)) {
      const bytes = new Uint8Array(await file.arrayBuffer());
      const task = { bytes, fileName: file.name, ours: [...this.functionNames], known: this.grid.functionNames(), mostCells };
      const opened = await this.withProgress(`Reading ${file.name}`, (control) => openInWorker(task, control));
      const told = opened && (await this.startFile(file.name, bytes, opened, handle && FilePlace.of({ handle, known: bytes })));
      if (told && told.length > 0) this.notice(told.join("\n"), "information");
    } else if (/\.(csv|tsv|txt)$/i.test(file.name)) {
      const { readCsvSheet } = await import(/* webpackChunkName: "csv" */ "./csv-sheet");
      const opened = await this.withProgress(`Reading ${file.name}`, (control) => readCsvSheet(file, file.name, control));
      const started = opened && (await this.start(file.name, { sheets: [opened.sheet], names: [] }));
      if (started && opened.notes.length > 0) this.notice(opened.notes.join("\n"), opened.doubtful ? "warning" : "information");
    } else {
      throw new FileProblem(`${file.name} is neither an .xlsx nor a .csv file, which are what this page opens.`);
    }
  }

  /** Shows how far something long has come and lets the person cancel it; undefined where they did. */
  private async withProgress<T>(
    title: string,
    work: (control: { onProgress(share: number): void; signal: AbortSignal }) => Promise<T>,
  ): Promise<T | undefined> {
    const cancel = new AbortController();
    const bar = element<HTMLProgressElement>("progress-bar");
    const button = element("progress-cancel");
    element("progress-text").textContent = `${title} …`;
    bar.value = 0;
    element("progress").hidden = false;
    const stop = () => cancel.abort();
    button.addEventListener("click", stop);
    try {
      return await work({ onProgress: (share) => (bar.value = share), signal: cancel.signal });
    } catch (error) {
      if (!cancel.signal.aborted) throw error;
      this.notice(`${title} was cancelled; the sheet is as it was.`, "information");
      return undefined;
    } finally {
      button.removeEventListener("click", stop);
      element("progress").hidden = true;
    }
  }

  /** Writes to the file that is open, after asking once, or downloads where the browser lets no page write. False where the person stays. */
  private async save(): Promise<boolean> {
    const { place } = this;
    if (!place) return this.saveXlsx();
    const made = await this.made("for Excel");
    if (!made) return false;
    if (!(await place.isAsKnown())) {
      element("outside-text").textContent = `Something else has changed “${place.name}” since this page last read or wrote it, or has taken it away.`;
      const answer = await this.answerOf("outside");
      if (answer === "copy") return this.saveXlsx();
      if (answer !== "replace") return false;
    } else if (!this.mayReplace) {
      element("replace-text").textContent = `Save writes your changes into “${place.name}” itself, from now on without asking again.`;
      const answer = await this.answerOf("replace");
      if (answer === "copy") return this.saveXlsx();
      if (answer !== "replace") return false;
    }
    this.mayReplace = true;
    return this.writeTo(place, made);
  }

  /** Writes to a file that the person chooses, and from then on to that one. */
  private async saveTo(): Promise<boolean> {
    const made = await this.made("for Excel");
    const place = made && (await pickToSave(plainName(this.fileName)));
    if (!made || !place || !(await this.writeTo(place, made))) return false;
    this.place = place;
    this.mayReplace = true;
    this.fileName = place.name;
    element("file-name").textContent = place.name;
    return true;
  }

  private async writeTo(place: FilePlace, { saved: { bytes, warnings }, changes }: Made): Promise<boolean> {
    if (!(await place.mayWrite())) {
      this.notice(`The browser does not let this page write to “${place.name}”. Save a copy under Save as.`);
      return false;
    }
    await place.write(bytes);
    if (changes === this.changes) this.setChanged(false);
    this.notice([`Saved in “${place.name}”.`, ...warnings].join("\n"), warnings.length === 0 ? "information" : "warning");
    return true;
  }

  /** A file of the workbook as it stands; undefined where the person, told what it will not have, does not want it. */
  private async made(form: CopyForm): Promise<Made | undefined> {
    await this.grid.settled();
    const now = { ...this.grid.workbook(), units: this.settings.text };
    const { changes } = this;
    const saved = this.file ? await this.file.copy(now, this.grid.journal(), this.functionNames, form) : await this.newFile(now, form);
    return saved.warnings.length > 0 && !(await this.isAccepted(saved.warnings)) ? undefined : { saved, changes };
  }

  /** Gives a workbook that has no file a name of its own. */
  private async rename(): Promise<void> {
    const box = element<HTMLInputElement>("naming-name");
    box.value = this.fileName;
    if ((await this.answerOf("naming")) !== "name" || box.value.trim() === "") return;
    this.fileName = box.value.trim();
    element("file-name").textContent = this.fileName;
    this.showTitle();
    // Work that is kept goes by this name.
    if (this.changed) this.keeping?.changed();
  }

  /** Downloads a copy. False where the person, told what it will not have, does not want it. */
  private async saveXlsx(form: CopyForm = "for Excel"): Promise<boolean> {
    const made = await this.made(form);
    if (!made) return false;
    const { saved, changes } = made;
    const kind = form === "for Excel" ? "copy" : "values";
    // A workbook that came from no file needs no name for a copy.
    const name = !this.file && kind === "copy" ? plainName(this.fileName) : copyName(this.fileName, /\.xlsm$/i.test(this.fileName) ? "xlsm" : "xlsx", kind);
    download(name, new Blob([saved.bytes.slice().buffer], { type: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet" }));
    if (form === "for Excel" && changes === this.changes) this.setChanged(false);
    const plain = form === "for Excel" ? "" : " Where a formula called a function of Pucksheet, it holds the value.";
    const missing = saved.warnings.map((warning) => `\n${warning}`).join("");
    this.notice(`Saved a copy as “${name}” in your downloads.${plain}${missing}`, missing === "" ? "information" : "warning");
    return true;
  }

  private async newFile(workbook: Workbook, form: CopyForm): Promise<SavedCopy> {
    const { writeXlsx } = await import(/* webpackChunkName: "xlsx" */ "../../xlsx/xlsx");
    const warnings: string[] = [];
    const written = form === "for Excel" ? workbook : withValues(workbook, this.functionNames, warnings);
    return { bytes: await writeXlsx(written, this.functionNames, warnings), warnings };
  }

  /** Asks whether the copy is wanted without what could not follow the changes. */
  private async isAccepted(warnings: readonly string[]): Promise<boolean> {
    element("losses-list").replaceChildren(
      ...warnings.map((warning) => {
        const item = document.createElement("li");
        item.textContent = warning;
        return item;
      }),
    );
    return (await this.answerOf("losses")) === "save";
  }

  /** What a person chooses in a dialog; "" where they close it. */
  private async answerOf(id: string): Promise<string> {
    const dialog = element<HTMLDialogElement>(id);
    dialog.returnValue = "";
    dialog.showModal();
    await new Promise((closed) => dialog.addEventListener("close", closed, { once: true }));
    return dialog.returnValue;
  }

  private async saveCsv(): Promise<void> {
    const { csvOf } = await import(/* webpackChunkName: "csv" */ "./csv-sheet");
    await this.grid.settled();
    const workbook = this.grid.workbook();
    const shown = this.grid.selected()?.sheet;
    const sheet = workbook.sheets.find(({ name }) => name === shown) ?? workbook.sheets[0]!;
    const name = copyName(this.fileName, "csv");
    download(name, new Blob([csvOf(sheet)], { type: "text/csv" }));
    const others = workbook.sheets.length - 1;
    const rest = others > 0 ? ` and without the other ${others === 1 ? "sheet" : `${others} sheets`}` : "";
    this.notice(
      `Saved the values of the sheet “${sheet.name}” as “${name}” in your downloads, without formulas and formats${rest}. To keep those, save a copy as .xlsx.`,
      "information",
    );
  }

  private async print(): Promise<void> {
    const sheet = this.grid.sheetInSight();
    const { planOf, printSheet } = await import(/* webpackChunkName: "print" */ "./print-sheet");
    await this.grid.settled();
    const widthOf = (area: Area) => this.grid.printedArea(sheet!, area).columns.reduce((sum, { width }) => sum + width, 0);
    const plan = sheet === undefined ? undefined : planOf(this.grid.workbook(), sheet, widthOf);
    if (sheet === undefined || !plan) return this.notice("This sheet is empty: there is nothing to print.", "information");
    const form = element("printing").querySelector("form")!;
    const chosen = (name: string) => form.elements.namedItem(name) as RadioNodeList;
    chosen("paper").value ||= usualPaper(navigator.language);
    chosen("laid").value = plan.landscape ? "across" : "upright";
    if ((await this.answerOf("printing")) !== "print") return;
    printSheet(this.grid, sheet, plan, { paper: chosen("paper").value as Paper, landscape: chosen("laid").value === "across" });
  }

  private async mayLeave(): Promise<boolean> {
    if (!this.changed) return true;
    element("unsaved-text").textContent = `“${this.fileName}” has changes that would be lost.`;
    const answer = await this.answerOf("unsaved");
    return answer === "save" ? this.save() : answer === "discard";
  }

  private setChanged(changed: boolean): void {
    if (changed) {
      this.changes++;
      this.keeping?.changed();
    } else void this.keeping?.forget();
    if (changed === this.changed) return;
    this.changed = changed;
    element("file-state").hidden = !changed;
    this.showTitle();
  }

  private showTitle(): void {
    document.title = `${this.changed ? "* " : ""}${this.fileName} – Pucksheet`;
  }

  private togglePane(): void {
    const dock = element("dock");
    dock.hidden = !dock.hidden;
    element("toggle-pane").setAttribute("aria-expanded", String(!dock.hidden));
  }

  /** Charts stand beside the cells where there is room for both, else below. */
  private placeCharts(): void {
    const [work, dock] = [element("work"), element("dock")];
    const place = () => work.classList.toggle("charts-below", work.clientWidth - dock.offsetWidth < leastWidthBeside || matchMedia(narrow).matches);
    const observer = new ResizeObserver(place);
    observer.observe(work);
    observer.observe(dock);
  }

  private toggleCharts(): void {
    const charts = element("charts");
    charts.hidden = !charts.hidden;
    element("toggle-charts").setAttribute("aria-expanded", String(!charts.hidden));
    this.charts.refresh();
  }

  /** F6 goes from the toolbar to the sheet to the pane and round again, as Tab moves between cells while in the sheet. */
  private leaveRegion(event: KeyboardEvent): void {
    if (event.key !== "F6") return;
    event.preventDefault();
    event.stopPropagation();
    const inside = (id: string) => element(id).contains(document.activeElement);
    const pane = element("dock").querySelector<HTMLElement>("input, select, button, a[href]");
    const stops: [boolean, () => void][] = [
      [!inside("grid") && !inside("dock"), () => element("new").focus()],
      [inside("grid"), () => this.grid.focus()],
      [inside("dock"), () => pane?.focus()],
    ];
    const reachable = stops.filter((_, index) => index < 2 || (pane !== null && !element("dock").hidden));
    const now = reachable.findIndex(([here]) => here);
    reachable[(now + (event.shiftKey ? reachable.length - 1 : 1)) % reachable.length]![1]();
  }

  private acceptDrops(): void {
    addEventListener("dragover", (event) => {
      if (event.dataTransfer?.types.includes("Files")) event.preventDefault();
    });
    addEventListener("drop", (event) => {
      const file = event.dataTransfer?.files[0];
      if (!file) return;
      event.preventDefault();
      const handle = fileHandleOf(event.dataTransfer!.items[0]);
      void this.attempt(async () => this.openFile(file, await handle));
    });
  }

  /** Runs what a person asked for; where it fails, says why. */
  private async attempt(act: () => unknown): Promise<void> {
    try {
      await act();
    } catch (error) {
      this.notice(error instanceof FileProblem ? error.message : `That did not work: ${error instanceof Error ? error.message : String(error)}`);
    }
  }

  /** Shows what a person should know; a warning is spoken at once. */
  private notice(text = "", kind: "warning" | "information" = "warning"): void {
    element("notice").hidden = text === "";
    element("notice-text").setAttribute("role", kind === "warning" ? "alert" : "status");
    element("notice-text").textContent = text;
  }

  private tellCell(): void {
    const cell = this.grid.selected();
    const unit = cell && unitOfCell(this.grid.names(), cell, this.settings.choice);
    const say = (id: string, text: string) => {
      // Spoken again only when it says something new.
      if (element(id).textContent !== text) element(id).textContent = text;
    };
    say("cell-line", cellInWords(cell));
    say("cell-unit", unit === undefined ? "" : `in ${unit}`);
    say("cell-note", addedInWords(cell, unit));
  }
}

function listed(items: readonly string[]): string {
  return items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}

function download(name: string, content: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(content);
  link.download = name;
  link.click();
  // The browser has taken the content by then.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

async function main(): Promise<void> {
  const functions = await loadFunctionMetadata();
  const grid = new Grid(element("grid"), functions, matchMedia("(prefers-color-scheme: dark)").matches);
  const page = new Page(grid, new Set(functions.map(fullName)), functionsLink);
  await page.start("Demo log", demoWorkbook());
  page.showPane();
  await page.keepWork();
  // Once the page stands, so that keeping it for later holds nothing up.
  if (isSecureContext && "serviceWorker" in navigator) await navigator.serviceWorker.register("service-worker.js").catch(() => undefined);
}

main().catch((error: unknown) => {
  element("cell-line").textContent = `The page could not start: ${error instanceof Error ? error.message : String(error)}`;
});
