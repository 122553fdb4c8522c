/** What the functions refused lately, for the list in the pane. */
export interface RecentProblem {
  readonly functionName: string;
  readonly message: string;
  /** Cells that showed it, counted anew at each calculation. */
  readonly count: number;
}

/** How many the list holds. */
export const problemsKept = 20;
const problems = new Map<string, RecentProblem>();
const listeners = new Set<() => void>();
/** Tells the listeners; nothing until there is one, since not every host has a clock. */
let announce = (): void => {};
let announced = false;
let calling = "";

/** The id of the function being called. */
export function callingFunction(): string {
  return calling;
}

/** Runs a call of this function, so that what it refuses is noted under its name. */
export function callingAs<T>(functionId: string, run: () => T): T {
  calling = functionId;
  return run();
}

export function noteProblem(functionId: string, message: string, cells: number): void {
  const key = `${functionId} ${message}`;
  const count = (problems.get(key)?.count ?? 0) + cells;
  problems.delete(key); // so that the latest stands last
  problems.set(key, { functionName: functionId, message, count });
  if (problems.size > problemsKept) problems.delete(problems.keys().next().value!);
  announce();
}

/** One announcement for a whole recalculation, after it. */
function announceSoon(): void {
  if (announced || listeners.size === 0) return;
  announced = true;
  setTimeout(() => {
    announced = false;
    for (const listener of listeners) listener();
  }, 100);
}

export function recentProblems(): readonly RecentProblem[] {
  return [...problems.values()].reverse();
}

export function onProblems(listener: () => void): () => void {
  listeners.add(listener);
  announce = announceSoon;
  return () => listeners.delete(listener);
}
