/** What a run knows, as a file from which runs of any machines can be joined. */
import { readFileSync, realpathSync } from "node:fs";
import { badInput } from "../../../shared/problem";
import type { CafeState } from "../../log-file/cafe";
import { isLogState, type Window } from "../../log-file/log-sums";
import { writeWhole, type ResultForm } from "./csv-file";
import { systemWords } from "./system-words";

export interface RunState {
  /** Which form of this file it is. */
  readonly version: 1;
  readonly windows: readonly Window[];
  readonly form: ResultForm;
  readonly cafes: readonly CafeState[];
}

/** `place` is where the file will stand in the end. */
export function writeState(path: string, place: string, state: RunState): void {
  writeWhole(path, place, `${JSON.stringify(state)}\n`);
}

/** Joins the states of runs, in the order in which they are given. */
export function joinedStates(paths: readonly string[]): RunState {
  const states = paths.map(readState);
  const first = states[0]!;
  const twice = paths.findIndex((path, index) => paths.some((other, before) => before < index && realpathSync(other) === realpathSync(path)));
  if (twice >= 0) badInput(`${paths[twice]} is given twice, and would count twice.`);
  const other = states.findIndex(({ windows }) => JSON.stringify(windows) !== JSON.stringify(first.windows));
  if (other > 0) badInput(`${paths[0]} and ${paths[other]} are of runs with different windows (--window), so they cannot be joined.`);
  return { ...first, cafes: states.flatMap(({ cafes }) => cafes) };
}

function readState(path: string): RunState {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (thrown) {
    return badInput(`${path} cannot be read: ${systemWords(thrown)}.`);
  }
  const state = parsed(text);
  return isRunState(state) ? state : badInput(`${path} is no file that --state of this version wrote, or it is damaged.`);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function isRunState(it: unknown): it is RunState {
  const { version, windows, form, cafes } = (it ?? {}) as Partial<RunState>;
  return version === 1 && Array.isArray(windows) && typeof form?.separator === "string" && Array.isArray(cafes) && cafes.every(isCafeState);
}

function isCafeState(it: unknown): it is CafeState {
  const { cafe, files, state, gravest } = (it ?? {}) as Partial<CafeState>;
  return typeof cafe === "string" && Array.isArray(files) && Array.isArray(gravest) && isLogState(state);
}
