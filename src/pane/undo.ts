/** What the pane has done, each with its way back. */

/** The way back, and what is then said. Throws a full sentence where it could not be undone. */
export type WayBack = () => Promise<string>;

export class Undo {
  private past: readonly WayBack[] = [];

  get possible(): boolean {
    return this.past.length > 0;
  }

  did(wayBack: WayBack): void {
    this.past = [...this.past, wayBack];
  }

  /** Undoes what was done last; where that fails, it can be tried again. */
  async last(): Promise<string> {
    const words = await this.past.at(-1)!();
    this.past = this.past.slice(0, -1);
    return words;
  }

  forget(): void {
    this.past = [];
  }
}
