/** The @example of a function's comment, taken apart: the tests run it, and the bench makes it long. */

/** The arguments and the results of an @example, as in `=ESPRESSO.RATIO(18, 36) gives 2` or `… gives 2 | 20`. */
export function parseExample(text: string): { id: string; cells: unknown[]; printed: string[] } {
  const parts = /^=ESPRESSO\.([A-Z0-9.]+)\((.*)\) gives (.+)$/.exec(text);
  if (!parts) throw new Error(`An example reads “=ESPRESSO.NAME(arguments) gives results”, but this one is “${text}”.`);
  return { id: parts[1]!, cells: parseArguments(parts[2]!), printed: parts[3]!.split(" | ") };
}

/** Arguments as typed: numbers, "texts", TRUE, {arrays} with , and ;, and nothing where one is left out. */
function parseArguments(text: string): unknown[] {
  if (text.trim() === "") return [];
  return text.split(/,(?![^{]*\})(?=(?:[^"]*"[^"]*")*[^"]*$)/).map((argument) => parseArgument(argument.trim()));
}

function parseArgument(text: string): unknown {
  if (text === "") return null;
  if (text.startsWith("{")) return text.slice(1, -1).split(";").map((row) => row.split(",").map((one) => parseArgument(one.trim()) ?? ""));
  if (text.startsWith('"')) return text.slice(1, -1);
  if (text === "TRUE" || text === "FALSE") return text === "TRUE";
  return Number(text);
}
