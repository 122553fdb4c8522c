/** When the work of the page is kept: soon after each change, and before the page goes out of sight. */
import type { Work, WorkKeeper } from "./kept-work";

/** Milliseconds after a change. */
const soon = 1_000;
/** Keeping may take this share of the time, so that a large workbook is kept less often. */
const shareOfTime = 1 / 20;

export class Keeping {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private lastTook = 0;
  private underWay: Promise<void> = Promise.resolve();
  private noRoom = false;
  /** Changed since it was last kept. */
  private dirty = false;

  /** `work` gives what there is to keep; `tell` gets a sentence for the person. */
  constructor(
    private readonly keeper: WorkKeeper,
    private readonly work: () => Promise<Work>,
    private readonly tell: (words: string) => void,
  ) {
    addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden" && this.dirty) void this.keep();
    });
  }

  /** Everything up to now is kept. */
  get isKept(): boolean {
    return !this.dirty;
  }

  changed(): void {
    this.dirty = true;
    this.timer ??= setTimeout(() => void this.keep(), Math.max(soon, this.lastTook / shareOfTime));
  }

  /** Keeps it at once; answers whether that worked. */
  async now(): Promise<boolean> {
    await this.keep();
    return this.isKept;
  }

  /** There is nothing to keep any more: the work was saved, or given up. */
  async forget(): Promise<void> {
    this.stop();
    await this.underWay;
    await this.keeper.forget();
  }

  private keep(): Promise<void> {
    this.stop();
    return (this.underWay = this.underWay.then(async () => {
      const began = performance.now();
      try {
        await this.keeper.keep(await this.work());
        this.noRoom = false;
      } catch (error) {
        this.dirty = true;
        if (!this.noRoom) this.tell(wordsFor(error));
        this.noRoom = true;
      }
      this.lastTook = performance.now() - began;
    }));
  }

  private stop(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
    this.dirty = false;
  }
}

function wordsFor(error: unknown): string {
  const full = error instanceof DOMException && error.name === "QuotaExceededError";
  const reason = full ? "The disk has no room left for it" : error instanceof Error ? error.message.replace(/\.$/, "") : String(error);
  return `Your work could not be kept as you go. ${reason}. Save a copy before you leave this page.`;
}
