/** References to columns of a table, as in [Dose] and [[#This Row],[Dose]:[Time]]: what stands in brackets after the table's name. */

/** The reference with other headings, by the old ones in lower case; undefined where a column of it is gone (undefined in the map). */
export function withHeadings(reference: string, headings: ReadonlyMap<string, string | undefined>): string | undefined {
  const inner = reference.slice(1, -1);
  let gone = false;
  const renamed = (spelled: string): string | undefined => {
    const old = spelled.trim();
    const key = unescapedHeading(old).toLowerCase();
    if (!headings.has(key)) return undefined;
    const to = headings.get(key);
    if (to === undefined) gone = true;
    return to ?? old;
  };
  let result: string;
  if (/^\s*\[/.test(inner) || /^@\s*\[/.test(inner)) {
    result = reference[0]! + inner.replace(/\[((?:[^[\]']|'.)*)\]/g, (all, column: string) => {
      const to = column.trim().startsWith("#") ? undefined : renamed(column);
      return to === undefined ? all : `[${escapedHeading(to)}]`;
    }) + "]";
  } else {
    const [, at = "", column = ""] = /^(@?)([^]*)$/.exec(inner)!;
    const to = column === "" || column.startsWith("#") ? undefined : renamed(column);
    result = to === undefined ? reference : isPlain(to) ? `[${at}${to}]` : `[${at}[${escapedHeading(to)}]]`;
  }
  return gone ? undefined : result;
}

/** Headings with other signs need brackets of their own. */
function isPlain(heading: string): boolean {
  return /^[\p{L}\p{N}_ ]+$/u.test(heading) && heading === heading.trim();
}

function escapedHeading(heading: string): string {
  return heading.replace(/[[\]#'@]/g, "'$&");
}

function unescapedHeading(spelled: string): string {
  return spelled.replace(/'(.)/gs, "$1");
}

/** One spelling for all that mean the same: [[Dose]] is [Dose]. */
export function simplestSpelling(reference: string): string {
  return reference.replace(/^\[(@?)\[((?:[^[\]']|'.)*)\]\]$/, "[$1$2]");
}
