/** References to columns of a table, as in [Dose] and [[#This Row],[Dose]:[Time]]: what stands in brackets after the table's name. */

/** The reference with other headings, by the old ones in lower case; undefined where a column of it is gone (undefined in the map). */
export function withHeadings(reference: string, headings: ReadonlyMap<string, string | undefined>): string | undefined {
  let gone = false;
  const result = withEachHeading(reference, (old) => {
    const key = old.toLowerCase();
    if (!headings.has(key)) return undefined;
    const to = headings.get(key);
    if (to === undefined) gone = true;
    return to;
  });
  return gone ? undefined : result;
}

/** The reference with what `rename` makes of each of its headings; undefined leaves one as it is spelled. */
export function withEachHeading(reference: string, rename: (heading: string) => string | undefined): string {
  const inner = reference.slice(1, -1);
  const renamed = (spelled: string) => (spelled.trim().startsWith("#") ? undefined : rename(unescapedHeading(spelled.trim())));
  if (/^\s*\[/.test(inner) || /^@\s*\[/.test(inner)) {
    const columns = inner.replace(/\[((?:[^[\]']|'.)*)\]/g, (all, column: string) => {
      const to = renamed(column);
      return to === undefined ? all : `[${escapedHeading(to)}]`;
    });
    return `[${columns}]`;
  }
  const [, at = "", column = ""] = /^(@?)([^]*)$/.exec(inner)!;
  const to = column === "" ? undefined : renamed(column);
  if (to === undefined) return reference;
  return isPlain(to) ? `[${at}${to}]` : `[${at}[${escapedHeading(to)}]]`;
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
