/** Stands in for Excel's `CustomFunctions` global, so that the very bundle that Excel loads runs without Excel. Import it before the bundle. */

export type WorksheetFunction = (...cells: unknown[]) => unknown;

/** The functions of the bundle by their id, as it associates them. */
export const registered = new Map<string, WorksheetFunction>();

const ErrorCode = {
  invalidValue: "#VALUE!",
  notAvailable: "#N/A",
  invalidNumber: "#NUM!",
  divisionByZero: "#DIV/0!",
  nullReference: "#NULL!",
  invalidName: "#NAME?",
  invalidReference: "#REF!",
} as const;

/** An error value of a cell, with the message that explains it. */
export class CellError extends Error {
  constructor(
    readonly code: string,
    message = "",
  ) {
    super(message);
  }
}

export function installCustomFunctions(): void {
  const associate = (id: string, calculate: WorksheetFunction): void => void registered.set(id, calculate);
  Object.assign(globalThis, { CustomFunctions: { ErrorCode, Error: CellError, associate } });
}
