/** Adds looks to the styles of an opened file. What is there stays; a changed look is the cell's old one with what was changed, at the end of the list. */
import type { Package } from "./package";
import { builtInFormats } from "./read-styles";
import type { BorderLine, CellStyle } from "./workbook";
import { eachElement, escaped, prefixOf, withAttributes, type Element } from "./xml";

const contentType = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml";

/** What has to be in the lists of a style sheet (ECMA-376 part 1, 18.8.39). */
const defaultMembers: Readonly<Record<Exclude<ListName, "numFmts">, readonly string[]>> = {
  fonts: [`<font><sz val="11"/><name val="Calibri"/></font>`],
  fills: [`<fill><patternFill patternType="none"/></fill>`, `<fill><patternFill patternType="gray125"/></fill>`],
  borders: ["<border><left/><right/><top/><bottom/><diagonal/></border>"],
  cellXfs: [`<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>`],
};
const defaultCellStyles = `<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>`;

const order = ["numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs", "cellStyles", "dxfs", "tableStyles", "colors", "extLst"];

type ListName = "numFmts" | "fonts" | "fills" | "borders" | "cellXfs";

export class StylePatch {
  private part: string | undefined;
  private prefix = "";
  private root = { open: "", close: "" };
  /** The style sheet's children: those with lists that grow as their members, others whole. */
  private readonly lists = new Map<ListName, { open: string; members: string[]; tail: string; close: string }>();
  private readonly others = new Map<string, string>();
  private readonly formats = new Map<string, number>();
  private readonly made = new Map<string, number>();
  private changed = false;

  constructor(private readonly file: Package) {}

  /** The number of a look: that of the number `base` with what differs between two looks. */
  styled(base: number, was: CellStyle | undefined, now: CellStyle | undefined): number {
    const key = `${base}|${JSON.stringify(was ?? null)}|${JSON.stringify(now ?? null)}`;
    let index = this.made.get(key);
    if (index === undefined) {
      this.load();
      index = this.add("cellXfs", this.combination(base, was ?? {}, now ?? {}));
      this.made.set(key, index);
    }
    return index;
  }

  /** Puts what was added into the file. */
  finish(): void {
    if (!this.changed || this.part === undefined) return;
    const unknown = [...this.others.keys()].filter((name) => !order.includes(name));
    const children = [...order.slice(0, -1), ...unknown, ...order.slice(-1)].map((name) => {
      const list = this.lists.get(name as ListName);
      if (!list) return this.others.get(name) ?? "";
      if (list.members.length === 0) return "";
      return `${withAttributes(list.open, { count: list.members.length })}${list.members.join("")}${list.tail}${list.close}`;
    });
    this.file.setText(this.part, `${this.root.open}${children.join("")}${this.root.close}`);
  }

  private load(): void {
    if (this.part !== undefined) return;
    const { file } = this;
    const existing = file.relationOf(file.main, "styles")?.target;
    this.part = existing !== undefined && file.has(existing) ? existing : `${file.folder}styles.xml`;
    let xml = file.text(this.part);
    if (xml === undefined) {
      xml = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<styleSheet xmlns="${file.mainNamespace}"></styleSheet>`;
      file.setText(this.part, xml);
      file.addContentType(this.part, contentType);
      if (existing === undefined) file.addRelation(file.main, "styles", this.part);
    }
    this.parse(xml);
  }

  private parse(xml: string): void {
    const members = new Map<string, string[]>();
    const tails = new Map<string, string>();
    eachElement(xml, (element) => {
      const { name, parent } = element;
      const text = xml.slice(element.start, element.end);
      if (parent?.parent && !parent.parent.parent) {
        // The list of known fonts and the like stand behind the members.
        if (isMember(parent.name, name)) members.set(parent.name, [...(members.get(parent.name) ?? []), text]);
        else tails.set(parent.name, (tails.get(parent.name) ?? "") + text);
        if (name === "numFmt") this.formats.set(element.attributes.formatCode ?? "", Number(element.attributes.numFmtId));
      } else if (parent && !parent.parent) this.addChild(xml, element, members.get(name) ?? [], tails.get(name) ?? "");
      else if (!parent) {
        const open = xml.slice(0, element.openEnd);
        this.prefix = prefixOf(element.fullName);
        this.root = { open: element.selfClosing ? open.replace(/\s*\/>$/, ">") : open, close: `</${element.fullName}>` };
      }
    });
    const withPrefix = (text: string) => text.replace(/<(\/?)(?=\w)/g, `<$1${this.prefix}`);
    for (const [name, ownMembers] of Object.entries({ numFmts: [], ...defaultMembers }) as [ListName, string[]][]) {
      if (this.lists.get(name)?.members.length) continue;
      this.lists.set(name, { open: withPrefix(`<${name}>`), members: ownMembers.map(withPrefix), tail: "", close: withPrefix(`</${name}>`) });
    }
    if (!this.others.has("cellStyleXfs")) this.others.set("cellStyleXfs", withPrefix(defaultCellStyles));
  }

  private addChild(xml: string, element: Element, members: string[], tail: string): void {
    const { name, fullName, start, openEnd, end, selfClosing } = element;
    const open = xml.slice(start, openEnd);
    if (/^(numFmts|fonts|fills|borders|cellXfs)$/.test(name)) {
      this.lists.set(name as ListName, { open: selfClosing ? open.replace(/\s*\/>$/, ">") : open, members, tail, close: `</${fullName}>` });
    } else this.others.set(name, xml.slice(start, end));
  }

  /** The place of a member in its list, added where it is not there yet. */
  private add(list: ListName, member: string): number {
    const { members } = this.lists.get(list)!;
    const existing = members.indexOf(member);
    if (existing >= 0) return existing;
    this.changed = true;
    return members.push(member) - 1;
  }

  private combination(base: number, was: CellStyle, now: CellStyle): string {
    const { members } = this.lists.get("cellXfs")!;
    let xf = members[base] ?? members[0]!;
    const number = (attribute: string) => Number(new RegExp(`\\s${attribute}\\s*=\\s*["'](\\d+)["']`).exec(openingTag(xf))?.[1] ?? 0);
    const set = (attributes: Record<string, number | undefined>) => {
      xf = withAttributes(openingTag(xf), attributes) + xf.slice(openingTag(xf).length);
    };
    if (fontKeys.some((key) => was[key] !== now[key])) set({ fontId: this.add("fonts", this.font(number("fontId"), was, now)), applyFont: 1 });
    if (was.fill !== now.fill) set({ fillId: now.fill === undefined ? 0 : this.add("fills", this.fill(now.fill)), applyFill: 1 });
    if (sideNames.some((side) => !sameEdge(was, now, side))) set({ borderId: this.add("borders", this.border(number("borderId"), was, now)), applyBorder: 1 });
    if (was.format !== now.format) set({ numFmtId: this.format(now.format), applyNumberFormat: 1 });
    if (was.horizontal !== now.horizontal || was.vertical !== now.vertical || was.wrap !== now.wrap) {
      set({ applyAlignment: 1 });
      xf = this.aligned(xf, was, now);
    }
    return xf;
  }

  private font(index: number, was: CellStyle, now: CellStyle): string {
    const { prefix } = this;
    const children = childrenOf(this.lists.get("fonts")!.members[index] ?? "<font/>");
    const flag = (name: string, key: "bold" | "italic" | "strike" | "underline") => {
      if (was[key] === now[key]) return;
      if (now[key]) children.set(name, `<${prefix}${name}/>`);
      else children.delete(name);
    };
    flag("b", "bold");
    flag("i", "italic");
    flag("strike", "strike");
    flag("u", "underline");
    const first = childrenOf(this.lists.get("fonts")!.members[0]!);
    if (was.size !== now.size) setChild(children, "sz", now.size === undefined ? first.get("sz") : `<${prefix}sz val="${now.size}"/>`);
    if (was.color !== now.color) setChild(children, "color", now.color === undefined ? undefined : this.color("color", now.color));
    if (was.font !== now.font) {
      for (const name of ["family", "charset", "scheme"]) children.delete(name);
      setChild(children, "name", now.font === undefined ? first.get("name") : `<${prefix}name val="${escaped(now.font)}"/>`);
    }
    return this.element("font", fontOrder, children);
  }

  private fill(color: string): string {
    const { prefix } = this;
    return `<${prefix}fill><${prefix}patternFill patternType="solid">${this.color("fgColor", color)}<${prefix}bgColor indexed="64"/></${prefix}patternFill></${prefix}fill>`;
  }

  private border(index: number, was: CellStyle, now: CellStyle): string {
    const { prefix } = this;
    const old = this.lists.get("borders")!.members[index] ?? "<border/>";
    const children = childrenOf(old);
    for (const side of sideNames) {
      if (sameEdge(was, now, side)) continue;
      const name = side === "left" && children.has("start") ? "start" : side === "right" && children.has("end") ? "end" : side;
      const edge = now.borders?.[side];
      children.set(name, edge ? `<${prefix}${name} style="${edge.line satisfies BorderLine}">${this.color("color", edge.color ?? "#000000")}</${prefix}${name}>` : `<${prefix}${name}/>`);
    }
    const open = openingTag(old).replace(/\s*\/?>$/, ">");
    return `${open}${borderOrder.map((name) => children.get(name) ?? "").join("")}</${prefix}border>`;
  }

  private format(code: string | undefined): number {
    if (code === undefined) return 0;
    for (const [id, builtIn] of builtInFormats) if (builtIn === code) return id;
    let id = this.formats.get(code);
    if (id === undefined) {
      id = Math.max(163, ...this.formats.values()) + 1;
      this.formats.set(code, id);
      this.add("numFmts", `<${this.prefix}numFmt numFmtId="${id}" formatCode="${escaped(code)}"/>`);
    }
    return id;
  }

  private aligned(xf: string, was: CellStyle, now: CellStyle): string {
    const { prefix } = this;
    const children = childrenOf(xf);
    const tag = children.get("alignment") ?? `<${prefix}alignment/>`;
    const attributes: Record<string, string | undefined> = {};
    if (was.horizontal !== now.horizontal) attributes.horizontal = now.horizontal;
    if (was.vertical !== now.vertical) attributes.vertical = now.vertical === "middle" ? "center" : now.vertical;
    if (was.wrap !== now.wrap) attributes.wrapText = now.wrap ? "1" : undefined;
    children.set("alignment", withAttributes(tag, attributes));
    const open = openingTag(xf).replace(/\s*\/?>$/, ">");
    return `${open}${["alignment", "protection", "extLst"].map((name) => children.get(name) ?? "").join("")}</${prefix}xf>`;
  }

  private color(name: string, color: string): string {
    return `<${this.prefix}${name} rgb="FF${color.slice(1).toUpperCase()}"/>`;
  }

  private element(name: string, childOrder: readonly string[], children: ReadonlyMap<string, string>): string {
    return `<${this.prefix}${name}>${childOrder.map((child) => children.get(child) ?? "").join("")}</${this.prefix}${name}>`;
  }
}

const fontKeys = ["bold", "italic", "underline", "strike", "font", "size", "color"] as const;
const sideNames = ["left", "right", "top", "bottom"] as const;
const fontOrder = ["b", "i", "strike", "condense", "extend", "outline", "shadow", "u", "vertAlign", "sz", "color", "name", "family", "charset", "scheme"];
const borderOrder = ["start", "left", "end", "right", "top", "bottom", "diagonal", "vertical", "horizontal"];

function isMember(list: string, name: string): boolean {
  return { numFmts: "numFmt", fonts: "font", fills: "fill", borders: "border", cellXfs: "xf" }[list] === name;
}

function sameEdge(a: CellStyle, b: CellStyle, side: (typeof sideNames)[number]): boolean {
  const [from, to] = [a.borders?.[side], b.borders?.[side]];
  return from?.line === to?.line && from?.color === to?.color;
}

function openingTag(xml: string): string {
  return /^<(?:[^>"']|"[^"]*"|'[^']*')*>/.exec(xml)?.[0] ?? xml;
}

function setChild(children: Map<string, string>, name: string, xml: string | undefined): void {
  if (xml === undefined) children.delete(name);
  else children.set(name, xml);
}

/** The children of an element by their names without prefix. */
function childrenOf(xml: string): Map<string, string> {
  const children = new Map<string, string>();
  eachElement(xml, ({ name, parent, start, end }) => {
    if (parent && !parent.parent) children.set(name, xml.slice(start, end));
  });
  return children;
}
