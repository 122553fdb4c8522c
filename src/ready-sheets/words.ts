/** Words that stand on every ready sheet. */

/** Over cells that a person fills in; these also have a border on every side. */
export const typeHere = "✎ Type here";
/** Over cells that fill themselves. */
export const worksOut = "→ Works itself out";
