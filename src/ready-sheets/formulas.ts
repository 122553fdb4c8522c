/** Formulas put together from their parts. Each part is a formula itself, without "=". */
import { spelled } from "../sheet/spelling";

/** One of our functions. */
export function call(functionId: string, ...args: readonly string[]): string {
  return `${spelled(functionId)}(${args.join(",")})`;
}

/** A text as a formula holds it. */
export function quoted(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}

/** A sentence around other formulas: say`Dose ${amount} heavy.` joins the texts and what the formulas give. */
export function say(texts: readonly string[], ...formulas: readonly string[]): string {
  const parts = texts.flatMap((text, index) => [...(text === "" ? [] : [quoted(text)]), ...(index < formulas.length ? [formulas[index]!] : [])]);
  return parts.length === 0 ? '""' : parts.join("&");
}

/** The value of the first condition that holds. */
export function firstOf(branches: readonly (readonly [condition: string, value: string])[], otherwise: string): string {
  return branches.reduceRight((rest, [condition, value]) => `IF(${condition},${value},${rest})`, otherwise);
}

/** A formula for a probability in a sentence. */
export function chance(cell: string): string {
  return `IF(${cell}<0.001,"below 0.001",FIXED(${cell},3,TRUE))`;
}

/** What is typed, with "" where nothing is: inside an array a blank would come out as 0. */
export function given(cells: string): string {
  return `IF(${cells}="","",${cells})`;
}

/** Numbers to draw: a chart leaves #N/A out, and would take a text for 0. */
export function drawn(cells: string): string {
  return `IF(ISNUMBER(${cells}),${cells},NA())`;
}

/** How many different entries a list has, blanks apart. */
export function differentIn(list: string): string {
  return `IFERROR(ROWS(UNIQUE(FILTER(${list},${list}<>""))),0)`;
}
