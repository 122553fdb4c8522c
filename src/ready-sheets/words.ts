/** Words that stand on every ready sheet. */

/** Over cells that a person fills in; these also have a border on every side. */
export const typeHere = "✎ Type here";
/** Over cells that fill themselves. */
export const worksOut = "→ Works itself out";

/** A formula for a probability in a sentence. */
export function chance(cell: string): string {
  return `IF(${cell}<0.001,"below 0.001",FIXED(${cell},3,TRUE))`;
}
