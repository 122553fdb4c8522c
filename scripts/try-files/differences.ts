/** What a saved copy changed, beside what a person did: fact by fact, and part by part of the package. */
import type { OutsideWorkbook } from "./outside-reader.ts";

/** What was typed, as in "Log!H12" with its text. */
export type Typed = ReadonlyMap<string, string>;

/** Between a file and its copy, after these cells were typed into; `unsigned` where it was said that the signature is gone. */
export function differencesOfCopy(before: OutsideWorkbook, after: OutsideWorkbook, typed: Typed, unsigned = false): string[] {
  return [...differencesOfFacts(before, after, typed), ...differencesOfParts(before.parts, after.parts, typed, before.volatile, unsigned)];
}

/** The same, but only in what the two say, however they are written. */
export function differencesOfFacts({ facts: before, volatile }: OutsideWorkbook, { facts: after }: OutsideWorkbook, typed: Typed): string[] {
  const isExpected = (place: string, now: string | undefined): boolean => {
    const [cell, kind] = [place.slice(0, place.lastIndexOf(" ")), place.slice(place.lastIndexOf(" ") + 1)];
    if (typed.has(cell)) return kind === "format" || (kind === "value" && now === JSON.stringify(typed.get(cell)));
    return kind === "value" && volatile && typed.size > 0 && before.has(`${cell} formula`);
  };
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((place) => {
    const [was, is] = [before.get(place), after.get(place)];
    return was === is || isExpected(place, is) ? [] : [`${place}: ${was ?? "nothing"} → ${is ?? "nothing"}`];
  });
}

/** The parts that carry the notes a program leaves about its own calculation, which an edit outdates. */
const calculationOrder = /calcChain/i;

/** The parts of a digital signature, and what points to them. */
const signature = /_xmlsignatures|digital-signature|\.sigs\b|"sigs"/i;

function differencesOfParts(
  before: OutsideWorkbook["parts"],
  after: OutsideWorkbook["parts"],
  typed: Typed,
  anyResult: boolean,
  unsigned: boolean,
): string[] {
  const differences: string[] = [];
  for (const [name, was] of before) {
    const is = after.get(name);
    if (is === undefined) {
      if ((typed.size === 0 || !calculationOrder.test(name)) && !(unsigned && signature.test(name))) differences.push(`the part ${name} is gone`);
    } else if (!equalBytes(was, is)) {
      const words = typed.size === 0 ? "differs" : differenceOfText(name, textOf(was), textOf(is), typed, anyResult);
      if (words) differences.push(`the part ${name} ${words}`);
    }
  }
  for (const name of after.keys()) if (!before.has(name)) differences.push(`the part ${name} is new`);
  return differences;
}

/** What differs in a part that an edit may touch, beside what it has to. */
function differenceOfText(name: string, was: string, is: string, typed: Typed, anyResult: boolean): string | undefined {
  if (name === "[Content_Types].xml" || /\.rels$/.test(name)) {
    const entries = (text: string) => [...text.matchAll(/<(?:\w+:)?(?:Override|Default|Relationship)\s[^>]*>/g)].map(([tag]) => tag).filter((tag) => !calculationOrder.test(tag) && !signature.test(tag));
    return entries(was).join("") === entries(is).join("") ? undefined : "lists other parts";
  }
  if (/<(?:\w+:)?workbook[\s>]/.test(was)) {
    const withoutCalculation = (text: string) => text.replace(/<(\w+:)?calcPr(\s[^>]*)?(\/>|>\s*<\/(\w+:)?calcPr>)/, "");
    return firstDifference(withoutCalculation(was), withoutCalculation(is));
  }
  if (!/<(?:\w+:)?worksheet[\s>]/.test(was)) return "differs";
  const addresses = new Set([...typed.keys()].map((place) => place.slice(place.lastIndexOf("!") + 1)));
  return firstDifference(comparable(was, addresses, anyResult), comparable(is, addresses, anyResult));
}

/**
 * The text of a sheet without what typing into these cells changes: the cells themselves, rows that hold nothing else, where the used
 * cells end, and the notes about where cells stand (which may be left out).
 */
function comparable(xml: string, addresses: ReadonlySet<string>, anyResult: boolean): string {
  const withoutTyped = xml.replace(/<(\w+:)?c\s(?:[^>]*\s)?r=["']([A-Z]+\d+)["'][^>]*?(?:\/>|>.*?<\/\1c>)/gs, (cell, _, at: string) => {
    if (addresses.has(at)) return "";
    return anyResult && /<(\w+:)?f[\s>/]/.test(cell) ? cell.replace(/<(\w+:)?v>.*?<\/(\w+:)?v>/s, "").replace(/\st="\w+"/, "") : cell;
  });
  return withoutTyped
    .replace(/<(\w+:)?dimension\s[^>]*\/>/, "")
    .replace(/(<(?:\w+:)?row)(\s[^>]*)?>/g, (row) => row.replace(/\s(?:r|spans)=["'][^"']*["']/g, "").replace(/\s*\/>$/, "/>"))
    .replace(/(<(?:\w+:)?c)\s[^>]*>/g, (cell) => cell.replace(/\sr=["'][^"']*["']/, ""))
    .replace(/<((?:\w+:)?row)((?:\s[^>]*)?)><\/\1>/g, "<$1$2/>")
    .replace(/<(\w+:)?row\/>/g, "")
    .replace(/<(\w+:)?sheetData\s*(?:\/>|>\s*<\/\1sheetData>)/g, "<sheetData/>");
}

function firstDifference(was: string, is: string): string | undefined {
  if (was === is) return undefined;
  let at = 0;
  while (was[at] === is[at]) at++;
  const around = (text: string) => JSON.stringify(text.slice(Math.max(0, at - 20), at + 60));
  return `differs: ${around(was)} → ${around(is)}`;
}

function textOf(bytes: Uint8Array): string {
  const encoding = bytes[0] === 0xff && bytes[1] === 0xfe ? "utf-16le" : bytes[0] === 0xfe && bytes[1] === 0xff ? "utf-16be" : "utf-8";
  return new TextDecoder(encoding).decode(bytes).replace(/^<\?xml[^>]*\?>/, "");
}

function equalBytes(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, index) => byte === b[index]);
}
