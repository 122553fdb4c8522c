/** The real page in a real Chromium, worked as a person works it: files chosen, cells typed into, copies downloaded. */
import { choose } from "../toolbar-button.ts";
import type { Browser, Page } from "playwright-core";

/** Longer than this is a hang. */
export const longestWait = 20_000;

/** What the page tells: a warning, or only that something was done and how. */
export interface Notice {
  readonly text: string;
  readonly isWarning: boolean;
}

export class PageDriver {
  private page: Page | undefined;
  /** Errors of the page since they were last asked for. */
  private faults: string[] = [];

  constructor(
    private readonly browser: Browser,
    private readonly address: string,
  ) {}

  /** Loads the page anew, so that nothing is left of the files before. */
  async restart(): Promise<void> {
    // A page that hangs may not close by itself either.
    void this.page?.close().catch(() => undefined);
    this.page = await this.browser.newPage({ viewport: { width: 1440, height: 860 } });
    this.page.setDefaultTimeout(longestWait);
    this.page.on("pageerror", (error) => this.faults.push(error.message));
    this.page.on("console", (message) => message.type() === "error" && this.faults.push(message.text()));
    this.page.on("crash", () => this.faults.push("The page crashed."));
    await this.page.goto(this.address);
    await this.waitFor(() => /^[A-Z]+\d/.test(document.getElementById("cell-line")!.textContent!));
  }

  takeFaults(): string[] {
    const faults = this.faults;
    this.faults = [];
    return faults;
  }

  /** Opens a file; answers what the page tells, and whether the file is open or refused. */
  async open(path: string, name: string): Promise<{ opened: boolean; notice: Notice }> {
    await this.closeNotice();
    await this.current.locator("#file").setInputFiles(path);
    const discard = this.current.locator("#unsaved[open] button[value=discard]");
    if (await discard.isVisible()) await discard.click();
    const opened = await this.waitFor((wanted) => {
      const open = document.getElementById("file-name")!.textContent === wanted && document.getElementById("grid")!.getAttribute("aria-busy") === "false";
      return open ? "opened" : !document.getElementById("notice")!.hidden && "refused";
    }, name);
    return { opened: opened === "opened", notice: await this.notice() };
  }

  async notice(): Promise<Notice> {
    const text = this.current.locator("#notice-text");
    if (!(await text.isVisible())) return { text: "", isWarning: false };
    return { text: (await text.textContent())!, isWarning: (await text.getAttribute("role")) === "alert" };
  }

  async closeNotice(): Promise<void> {
    const close = this.current.locator("#notice-close");
    if (await close.isVisible()) await close.click();
  }

  /** Presses a button that saves; answers the file and what the page tells about it. */
  async save(button: string): Promise<{ name: string; bytes: Uint8Array; notice: Notice }> {
    await this.closeNotice();
    const download = this.current.waitForEvent("download");
    await choose(this.current, button);
    // What a copy cannot have is told before, and the person asked.
    const asked = this.current.locator("#losses[open] button[value=save]");
    const accepting = asked.click({ timeout: longestWait }).catch(() => undefined);
    const file = await download;
    void accepting;
    const pieces: Uint8Array[] = [];
    for await (const piece of await file.createReadStream()) pieces.push(piece as Uint8Array);
    await this.waitFor(() => !document.getElementById("notice")!.hidden);
    return { name: file.suggestedFilename(), bytes: Buffer.concat(pieces), notice: await this.notice() };
  }

  /** Brings a sheet into sight. */
  async goToSheet(name: string): Promise<void> {
    const tab = this.current.getByRole("tab", { name, exact: true });
    if ((await tab.getAttribute("aria-selected")) === "true") return;
    await tab.scrollIntoViewIfNeeded();
    await tab.click();
    await this.waitFor((wanted) => document.querySelector("[role=tab][aria-selected=true]")?.textContent === wanted, name);
  }

  /** Selects a cell of the sheet in sight; answers the line that tells it. */
  async select(address: string): Promise<string> {
    const box = this.current.getByLabel("Address of the cell");
    const there = (wanted: string) => document.getElementById("cell-line")!.textContent!.split(" ")[0] === wanted;
    // The box takes the address of every newly selected cell, so one that is just being selected can overwrite what is typed.
    for (let attempt = 0; attempt < 9; attempt++) {
      await box.fill(address);
      await box.press("Enter");
      const arrived = this.current.waitForFunction(there, address, { timeout: longestWait / 10 });
      if (await arrived.then(() => true, () => false)) return (await this.current.locator("#cell-line").textContent())!;
    }
    throw new Error(`${address} could not be selected; the line tells “${await this.current.locator("#cell-line").textContent()}”.`);
  }

  /** Types into the selected cell. */
  async type(text: string): Promise<void> {
    await this.current.keyboard.type(text);
    await this.current.keyboard.press("Enter");
    await this.waitFor(() => !document.getElementById("file-state")!.hidden);
  }

  private get current(): Page {
    if (!this.page) throw new Error("The page is not open.");
    return this.page;
  }

  private async waitFor<A, R>(condition: (argument: A) => R, argument?: A): Promise<R> {
    const found = await this.current.waitForFunction(condition as never, argument, { timeout: longestWait });
    return (await found.jsonValue()) as R;
  }
}
