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

/** Our functions as files and other programs spell them: behind a prefix, or with underscores for dots. */
const spelledOtherwise = new RegExp(`^(?:_xl[a-z]+[._])?${namespace}[._](.+)$`, "i");

/** The function that a name means, however it is spelled; undefined where it is none of ours. It need not exist. */
export function functionIdOf(name: string): string | undefined {
  return spelledOtherwise.exec(name)?.[1]!.toUpperCase().replace(/_/g, ".");
}
