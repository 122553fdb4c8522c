/**
 * XML as the parts of a workbook use it: walked for reading, and changed in place, so that what is not changed keeps its very characters.
 * Elements go by their local names: files may use any prefix.
 */
import { SaxesParser } from "saxes";

export type Attributes = Readonly<Record<string, string>>;

/** The part holds something that no workbook holds and that could do harm: its own entities. */
export class DoctypeProblem extends Error {}

/** The text of a part is no XML. */
export class XmlProblem extends Error {}

export function localName(name: string): string {
  return name.slice(name.indexOf(":") + 1);
}

/** With its colon; "" where there is none. */
export function prefixOf(name: string): string {
  return name.slice(0, name.indexOf(":") + 1);
}

/** An attribute by its local name, as in r:id. */
export function prefixed(attributes: Attributes, name: string): string | undefined {
  for (const key in attributes) if (key.endsWith(`:${name}`)) return attributes[key];
  return undefined;
}

export function isOn(value: string | undefined, otherwise = false): boolean {
  return value === undefined ? otherwise : value === "1" || value === "true" || value === "on";
}

export interface Walk {
  open?(name: string, attributes: Attributes, parent: string | undefined): void;
  /** `text` is what stands directly in the element, up to its end. */
  close?(name: string, text: string, parent: string | undefined): void;
}

/** Reads a part. What stands for newer programs (extLst, and the choices that have a fallback) is passed over. */
export function walk(xml: string, reader: Walk): void {
  walker(reader).write(xml).close();
}

/** The same for a part of any size, piece by piece: of one that holds something longer than the XML of a cell can be, no more is read. */
export class WalkedPieces {
  private readonly parser: SaxesParser;
  /** Characters since the parser last told of something, which it holds. */
  private held = 0;

  constructor(reader: Walk) {
    this.parser = walker(reader, () => (this.held = 0));
  }

  write(piece: string): void {
    for (let at = 0; at < piece.length; at += mostAtOnce) {
      const some = piece.slice(at, at + mostAtOnce);
      this.held += some.length;
      this.parser.write(some);
      if (this.held > mostHeld) throw new XmlProblem(`one of its elements is longer than ${mostHeld} characters`);
    }
  }

  end(): void {
    this.parser.close();
  }
}

/** Of what stands in several elements, the whole; far more than a cell takes. */
export function lengthened(text: string, more: string): string {
  if (text.length + more.length > mostHeld) throw new XmlProblem(`one of its texts is longer than ${mostHeld} characters`);
  return text + more;
}

const mostHeld = 1_000_000;
const mostAtOnce = 1 << 16;
/** Elements within elements. A worksheet has some ten, and each that is open takes memory. */
const deepest = 100_000;

function walker(reader: Walk, onTold?: () => void): SaxesParser {
  const path: string[] = [];
  let text = "";
  let skipped = 0;
  let depth = 0;
  const parser = parserOf();
  parser.on("opentag", (tag) => {
    onTold?.();
    if (++depth > deepest) throw new XmlProblem(`its elements lie more than ${deepest} deep within one another`);
    const name = localName(tag.name);
    if (skipped > 0 || name === "extLst" || (name === "Choice" && tag.name !== name)) {
      skipped++;
      return;
    }
    if (name === "AlternateContent" || name === "Fallback") return;
    const parent = path.at(-1);
    path.push(name);
    text = "";
    reader.open?.(name, tag.attributes as Attributes, parent);
  });
  const add = (piece: string) => {
    if (skipped === 0) text += piece;
  };
  parser.on("text", add);
  parser.on("cdata", add);
  parser.on("closetag", (tag) => {
    onTold?.();
    depth--;
    if (skipped > 0) {
      skipped--;
      return;
    }
    const name = localName(tag.name);
    if (name === "AlternateContent" || name === "Fallback") return;
    path.pop();
    reader.close?.(name, text, path.at(-1));
    text = "";
  });
  return parser;
}

/** An element and where it stands in the text of its part. */
export interface Element {
  /** Without prefix. */
  readonly name: string;
  readonly fullName: string;
  readonly attributes: Attributes;
  readonly parent: Element | undefined;
  /** Where its "<" is, where its opening tag ends, where its closing tag begins, and where it ends. */
  readonly start: number;
  readonly openEnd: number;
  closeStart: number;
  end: number;
  readonly selfClosing: boolean;
  /** What stands directly in it. */
  text: string;
}

/** Calls for each element when it ends, so children come before their parent. Everything is visited, also what is for newer programs. */
export function eachElement(xml: string, visit: (element: Element) => void, open?: (element: Element) => void): void {
  const stack: Element[] = [];
  const parser = parserOf(true);
  parser.on("opentag", (tag) => {
    const openEnd = parser.position;
    const element: Element = {
      name: localName(tag.name),
      fullName: tag.name,
      attributes: tag.attributes as Attributes,
      parent: stack.at(-1),
      // No attribute can hold a bare "<".
      start: xml.lastIndexOf("<", openEnd - 1),
      openEnd,
      closeStart: openEnd,
      end: openEnd,
      selfClosing: tag.isSelfClosing,
      text: "",
    };
    stack.push(element);
    open?.(element);
  });
  const add = (piece: string) => {
    const element = stack.at(-1);
    if (element) element.text += piece;
  };
  parser.on("text", add);
  parser.on("cdata", add);
  parser.on("closetag", () => {
    const element = stack.pop()!;
    element.end = parser.position;
    element.closeStart = element.selfClosing ? element.end : xml.lastIndexOf("<", element.end - 1);
    visit(element);
  });
  parser.write(xml).close();
}

function parserOf(position = false): SaxesParser {
  const parser = new SaxesParser({ position });
  parser.on("error", ({ message }) => {
    throw new XmlProblem(message);
  });
  parser.on("doctype", () => {
    throw new DoctypeProblem();
  });
  return parser;
}

/** A stretch of a text and what is to stand there instead. */
export interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** Stretches may touch but not overlap, except that one inside another that is replaced goes with it. */
export function spliced(text: string, splices: readonly Splice[]): string {
  if (splices.length === 0) return text;
  const inOrder = [...splices].sort((a, b) => a.from - b.from || Number(a.to > a.from) - Number(b.to > b.from) || b.to - a.to);
  const pieces: string[] = [];
  let at = 0;
  for (const splice of inOrder) {
    if (splice.from < at) continue;
    pieces.push(text.slice(at, splice.from), splice.text);
    at = splice.to;
  }
  pieces.push(text.slice(at));
  return pieces.join("");
}

/** The opening tag with attributes set, or taken out where the value is undefined. Names are without prefix. */
export function withAttributes(tag: string, values: Readonly<Record<string, string | number | undefined>>): string {
  let changed = tag;
  for (const [name, value] of Object.entries(values)) {
    const pattern = new RegExp(`\\s${name}\\s*=\\s*("[^"]*"|'[^']*')`);
    const written = value === undefined ? "" : ` ${name}="${escaped(String(value))}"`;
    if (pattern.test(changed)) changed = changed.replace(pattern, () => written);
    else if (value !== undefined) changed = changed.replace(/\s*\/?>$/, (end) => `${written}${end.trim()}`);
  }
  return changed;
}

const entities: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "\n": "&#10;", "\r": "&#13;", "\t": "&#9;" };

/** For an attribute, and for a formula. */
export function escaped(text: string): string {
  return text.replace(/[&<>"\n\r\t]/g, (character) => entities[character]!);
}

/** For the text of an element; line breaks stay as they are. */
export function escapedText(text: string): string {
  return text.replace(/[&<>]/g, (character) => entities[character]!).replaceAll("\r", "&#13;");
}

/** A text of a cell, in which characters that XML cannot hold are spelled _xHHHH_ (ECMA-376 part 1, 22.9.2.19). */
export function escapedCellText(text: string): string {
  return escapedText(cellSpelling(text));
}

export function cellSpelling(text: string): string {
  return text
    .replace(/_(?=x[0-9A-Fa-f]{4}_)/g, "_x005F_")
    .replace(/[\x00-\x08\x0b\x0c\x0e-\x1f\r\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, (character) => {
      return `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`;
    });
}

export function unescapedCellText(text: string): string {
  return text.includes("_x") ? text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, code: string) => String.fromCharCode(parseInt(code, 16))) : text;
}

/** What is to become of an element: attributes by name without prefix (undefined takes one out), its text, or something else instead of it, or nothing. */
export interface ElementChange {
  readonly attributes?: Readonly<Record<string, string | number | undefined>>;
  readonly text?: string;
  /** XML that stands there instead. */
  readonly instead?: string;
  readonly drop?: true;
}

/**
 * The XML with elements changed. `visit` is called for each element when it ends, and may change that one or any inside it. Lists that have
 * lost all their members go too, and their counts follow.
 */
export function rewritten(xml: string, visit: (element: Element, change: (element: Element, what: ElementChange) => void) => void): string {
  const changes = new Map<Element, ElementChange>();
  const members = new Map<Element, { kept: number; dropped: number }>();
  const change = (element: Element, what: ElementChange) => {
    const before = changes.get(element);
    changes.set(element, { ...before, ...what, ...(before?.attributes && { attributes: { ...before.attributes, ...what.attributes } }) });
  };
  eachElement(xml, (element) => {
    visit(element, change);
    const own = members.get(element);
    if (own && own.dropped > 0 && lists.has(element.name)) change(element, own.kept === 0 ? { drop: true } : { attributes: countsOf(element, own.kept) });
    members.delete(element);
    if (!element.parent) return;
    const counts = members.get(element.parent) ?? { kept: 0, dropped: 0 };
    if (changes.get(element)?.drop) counts.dropped++;
    else counts.kept++;
    members.set(element.parent, counts);
  });
  return spliced(xml, [...changes].flatMap(([element, what]) => changeSplices(xml, element, what)));
}

function countsOf({ attributes: { count, manualBreakCount } }: Element, kept: number): Record<string, number> {
  return { ...(count !== undefined && { count: kept }), ...(manualBreakCount !== undefined && { manualBreakCount: kept }) };
}

function changeSplices(xml: string, element: Element, { attributes, text, instead, drop }: ElementChange): Splice[] {
  const { start, openEnd, closeStart, end, selfClosing, fullName } = element;
  if (drop || instead !== undefined) return [{ from: start, to: end, text: instead ?? "" }];
  const tag = xml.slice(start, openEnd);
  const content = text !== undefined && text !== element.text ? escapedText(text) : undefined;
  const different = Object.entries(attributes ?? {}).filter(([name, value]) => element.attributes[name] !== (value === undefined ? undefined : String(value)));
  let changed = withAttributes(tag, Object.fromEntries(different));
  if (content && selfClosing) changed = `${changed.replace(/\s*\/>$/, ">")}${content}</${fullName}>`;
  return [
    ...(changed === tag ? [] : [{ from: start, to: openEnd, text: changed }]),
    ...(content === undefined || selfClosing ? [] : [{ from: openEnd, to: closeStart, text: content }]),
  ];
}

/** Lists that may not be empty. */
const lists = new Set(
  `mergeCells dataValidations hyperlinks rowBreaks colBreaks protectedRanges ignoredErrors cellWatches cols conditionalFormattings sparklines
  sparklineGroups`.split(/\s+/),
);
