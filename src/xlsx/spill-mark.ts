/** The number that marks a formula whose results spill, and the part that gives it its meaning ([MS-XLSX] 2.4.49 and 2.6.202). */
import type { Package } from "./package";
import { withSection } from "./patch-sheet";
import { eachElement, walk, withAttributes, type Element } from "./xml";

const contentType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml";

const metadataType =
  `name="XLDAPR" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1"` +
  ` clearComments="1" assign="1" coerce="1" cellMeta="1"`;

const properties =
  `<ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties` +
  ` xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray" fDynamic="1" fCollapsed="0"/></ext>`;

const childOrder = ["metadataTypes", "metadataStrings", "mdxMetadata", "futureMetadata", "cellMetadata", "valueMetadata", "extLst"];

/** The numbers that cells carry for "a formula whose results spill" ([MS-XLSX] 2.4.49, the metadata type XLDAPR). */
export function spillingMarks(xml: string): Set<string> {
  const types: string[] = [];
  const marks = new Set<string>();
  let inCells = false;
  let number = 0;
  walk(xml, {
    open(name, attributes) {
      if (name === "metadataType") types.push(attributes.name ?? "");
      else if (name === "cellMetadata") inCells = true;
      else if (name === "bk" && inCells) number++;
      else if (name === "rc" && inCells && types[Number(attributes.t) - 1] === "XLDAPR") marks.add(String(number));
    },
    close(name) {
      if (name === "cellMetadata") inCells = false;
    },
  });
  return marks;
}

/** The number that a file has for it already, or gets now. */
export function spillMark(file: Package): string {
  const existing = file.relationOf(file.main, "sheetMetadata")?.target;
  const part = existing !== undefined && file.has(existing) ? existing : `${file.folder}metadata.xml`;
  const xml = file.text(part) ?? `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<metadata xmlns="${file.mainNamespace}"></metadata>`;
  const [known] = file.has(part) ? spillingMarks(xml) : [];
  if (known !== undefined) return known;
  const { text, mark } = withMark(xml);
  const isNew = !file.has(part);
  file.setText(part, text);
  if (isNew) {
    file.addContentType(part, contentType);
    if (existing === undefined) file.addRelation(file.main, "sheetMetadata", part);
  }
  return mark;
}

function withMark(xml: string): { text: string; mark: string } {
  const types: string[] = [];
  let blocks = 0;
  let futures = 0;
  eachElement(xml, (element) => {
    if (element.name === "metadataType") types.push(element.attributes.name ?? "");
    else if (element.name === "bk" && element.parent?.name === "cellMetadata") blocks++;
    else if (element.name === "bk" && isOurs(element.parent)) futures++;
  });
  let type = types.indexOf("XLDAPR") + 1;
  let text = xml;
  if (type === 0) {
    type = types.length + 1;
    text = appended(text, "metadataTypes", (prefix) => `<${prefix}metadataType ${metadataType}/>`, types.length + 1);
  }
  text = withFuture(text, futures);
  text = appended(text, "cellMetadata", (prefix) => `<${prefix}bk><${prefix}rc t="${type}" v="${futures}"/></${prefix}bk>`, blocks + 1);
  return { text, mark: String(blocks + 1) };
}

function isOurs(element: Element | undefined): boolean {
  return element?.name === "futureMetadata" && element.attributes.name === "XLDAPR";
}

function appended(xml: string, list: string, member: (prefix: string) => string, count: number): string {
  return withSection(
    xml,
    list,
    (existing, prefix) => {
      const open = existing === undefined ? `<${prefix}${list}>` : /^<(?:[^>"']|"[^"]*"|'[^']*')*>/.exec(existing)![0].replace(/\s*\/>$/, ">");
      const inner = existing === undefined || /^<[^>]*\/>$/.test(existing) ? "" : existing.replace(/^<(?:[^>"']|"[^"]*"|'[^']*')*>/, "").replace(/<\/[^>]*>\s*$/, "");
      return `${withAttributes(open, { count })}${inner}${member(prefix)}</${prefix}${list}>`;
    },
    childOrder,
  );
}

/** There may be other lists of the kind, of which each is for a type of its own. */
function withFuture(xml: string, members: number): string {
  let list: Element | undefined;
  let after: Element | undefined;
  eachElement(xml, (element) => {
    if (isOurs(element)) list = element;
    if (element.parent && !element.parent.parent && ["metadataTypes", "metadataStrings", "mdxMetadata", "futureMetadata"].includes(element.name)) after = element;
  });
  if (!after) throw new Error("The types of the metadata were written before.");
  const prefix = after.fullName.slice(0, after.fullName.indexOf(":") + 1);
  const member = `<${prefix}bk><${prefix}extLst>${properties.replace(/<(\/?)ext(?=[ >])/g, `<$1${prefix}ext`)}</${prefix}extLst></${prefix}bk>`;
  if (!list || list.selfClosing) {
    const at = list ?? { start: after.end, end: after.end };
    return xml.slice(0, at.start) + `<${prefix}futureMetadata name="XLDAPR" count="1">${member}</${prefix}futureMetadata>` + xml.slice(at.end);
  }
  const open = withAttributes(xml.slice(list.start, list.openEnd), { count: members + 1 });
  return xml.slice(0, list.start) + open + xml.slice(list.openEnd, list.closeStart) + member + xml.slice(list.closeStart);
}
