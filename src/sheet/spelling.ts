/** How the host spells the name of a worksheet function: the one place that says so. Most write dots; a host that knows none sets its own. */
export const namespace = "ESPRESSO";

type Spelling = (functionId: string) => string;

let spelling: Spelling = (functionId) => `${namespace}.${functionId}`;

export function useSpelling(own: Spelling): void {
  spelling = own;
}

/** The function as it is typed in a cell, as in “ESPRESSO.READ.SECONDS”. */
export function spelled(functionId: string): string {
  return spelling(functionId);
}
