/**
 * The files that a run writes. They are written into a folder beside their places and moved there when all of them are whole, so that whatever
 * ends the run before leaves nothing that could be taken for a result.
 */
import { existsSync, mkdtempSync, renameSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { badInput } from "../../../shared/problem";
import { systemWords } from "./system-words";

export class Outputs {
  private constructor(
    private readonly beside: string,
    private readonly folder: string,
    readonly names: readonly string[],
    private readonly replace: boolean,
  ) {}

  /** `logs` are the files that are read, which no result may take the place of. */
  static begin(folder: string, names: readonly string[], { logs, replace }: { logs: readonly string[]; replace: boolean }): Outputs {
    if (!existsSync(folder)) badInput(`There is no folder ${folder}.`);
    refuseTakenPlaces(folder, names, replace);
    for (const name of names) refuseLog(join(folder, name), logs);
    try {
      return new Outputs(mkdtempSync(join(folder, ".check-log-")), folder, names, replace);
    } catch (thrown) {
      return badInput(`Nothing can be written into ${folder}: ${systemWords(thrown)}.`);
    }
  }

  /** Where a result, or a part of one, is written for now. */
  path(name: string): string {
    return join(this.beside, name);
  }

  /** Where a result will be. */
  place(name: string): string {
    return join(this.folder, name);
  }

  /**
   * Moves the results to their places. Those of an earlier run are set aside first, all of them, so that a run that is killed meanwhile never leaves
   * new findings beside an old summary: what it leaves is of one run, and the rest of both is still in the hidden folder.
   */
  finish(): void {
    refuseTakenPlaces(this.folder, this.names, this.replace);
    const moved: { readonly from: string; readonly to: string }[] = [];
    const move = (from: string, to: string): void => {
      renameSync(from, to);
      moved.push({ from, to });
    };
    for (const name of this.names) {
      try {
        if (existsSync(this.place(name))) move(this.place(name), this.path(`earlier-${name}`));
      } catch (thrown) {
        this.refuseMove(name, thrown, moved);
      }
    }
    for (const name of this.names) {
      try {
        move(this.path(name), this.place(name));
      } catch (thrown) {
        this.refuseMove(name, thrown, moved);
      }
    }
    this.discard();
  }

  /** With everything back in its place. */
  private refuseMove(name: string, thrown: unknown, moved: readonly { readonly from: string; readonly to: string }[]): never {
    for (const { from, to } of [...moved].reverse()) renameSync(to, from);
    return badInput(`${this.place(name)} cannot be written: ${systemWords(thrown)}.`);
  }

  discard(): void {
    // Another thread may be writing its last.
    rmSync(this.beside, { recursive: true, force: true, maxRetries: 5 });
  }
}

function refuseTakenPlaces(folder: string, names: readonly string[], replace: boolean): void {
  for (const name of names) {
    const path = join(folder, name);
    if (statSync(path, { throwIfNoEntry: false })?.isDirectory()) badInput(`${path} is a folder, so no result can be written there.`);
    if (existsSync(path) && !replace) badInput(`${path} is there already. Move it, or let it be written over with --replace.`);
  }
}

/** A link, or another name, is the log too. */
function refuseLog(path: string, logs: readonly string[]): void {
  const there = statSync(path, { throwIfNoEntry: false, bigint: true });
  const log = there && logs.find((it) => {
    const { dev, ino } = statSync(it, { bigint: true });
    return dev === there.dev && ino === there.ino;
  });
  if (log !== undefined) badInput(`${path} would be written over, but is the log ${log} itself. Move it, or write elsewhere with --output.`);
}
