/** The parts of an .xlsx file that the workbook reader does not give: the units' document property, the theme, and what will not survive a copy. */
import { editZip, unzip } from "@cj-tech-master/excelts/archive";
import { unitsProperty } from "../sheet/unit-choice";

export interface Parts {
  readonly names: readonly string[];
  /** The text of a part; "" where there is none. */
  read(name: string): Promise<string>;
}

export async function openParts(bytes: Uint8Array): Promise<Parts> {
  const zip = unzip(bytes);
  const names: string[] = [];
  for await (const entry of zip.entries()) names.push(entry.path);
  return {
    names,
    read: async (name) => {
      const content = await zip.bytes(name);
      return content ? new TextDecoder().decode(content) : "";
    },
  };
}

const propertiesPart = "docProps/custom.xml";
const propertiesType = "application/vnd.openxmlformats-officedocument.custom-properties+xml";
const propertiesRelation = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/custom-properties";
/** The one format id that custom document properties have (MS-OSHARED 2.3.3.2.3.1). */
const propertiesFormat = "{D5CDD505-2E9C-101B-9397-08002B2CF9AE}";

export async function readUnits(parts: Parts): Promise<string | undefined> {
  const xml = await parts.read(propertiesPart);
  if (xml === "") return undefined;
  for (const property of new DOMParser().parseFromString(xml, "application/xml").getElementsByTagName("property")) {
    if (property.getAttribute("name") === unitsProperty) return property.textContent ?? undefined;
  }
  return undefined;
}

/** Excel keeps the values of a file that says it was calculated by this version; values from an older one it calculates anew (from memory). */
const calculationVersion = "191029";

/** Completes a file as the library wrote it: the units, and the mark that keeps the values until Excel's own recalculation. */
export async function finished(bytes: Uint8Array, units: string | undefined): Promise<Uint8Array> {
  const parts = await openParts(bytes);
  const editor = await editZip(bytes);
  const workbook = await parts.read("xl/workbook.xml");
  editor.set("xl/workbook.xml", workbook.replace(/calcId="\d+"/, `calcId="${calculationVersion}"`));
  if (units !== undefined) {
    const types = await parts.read("[Content_Types].xml");
    const relations = await parts.read("_rels/.rels");
    editor.set(propertiesPart, propertiesXml(units));
    editor.set("[Content_Types].xml", types.replace("</Types>", `<Override PartName="/${propertiesPart}" ContentType="${propertiesType}"/></Types>`));
    editor.set("_rels/.rels", relations.replace("</Relationships>", `<Relationship Id="rIdUnits" Type="${propertiesRelation}" Target="${propertiesPart}"/></Relationships>`));
  }
  return editor.bytes();
}

function propertiesXml(units: string): string {
  const types = "http://schemas.openxmlformats.org/officeDocument/2006";
  const value = units.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
  return (
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n` +
    `<Properties xmlns="${types}/custom-properties" xmlns:vt="${types}/docPropsVTypes">` +
    `<property fmtid="${propertiesFormat}" pid="2" name="${unitsProperty}"><vt:lpwstr>${value}</vt:lpwstr></property></Properties>`
  );
}

/** The parts that the page reads; all others are left out before the workbook is read, so that nothing unusual in them can stop it. */
const readParts = /^(\[Content_Types\]\.xml|_rels\/\.rels|docProps\/.*|xl\/(_rels\/)?workbook\.xml(\.rels)?|xl\/worksheets\/(_rels\/)?[^/]+|xl\/tables\/[^/]+|xl\/theme\/[^/]+|xl\/(sharedStrings|styles|metadata)\.xml)$/;

/** The file with only what the page reads. */
export async function withReadParts(bytes: Uint8Array, parts: Parts): Promise<Uint8Array> {
  const others = parts.names.filter((name) => !readParts.test(name) && !name.endsWith("/"));
  if (others.length === 0) return bytes;
  const editor = await editZip(bytes);
  // Stored as they are: in browsers the library (10.2.0) compresses parts of more than about 1.5 MB unreadably, and this copy is only read once.
  const set = (name: string, text: string) => editor.set(name, text, { level: 0 });
  for (const name of others) editor.delete(name);
  const relations = await parts.read("xl/_rels/workbook.xml.rels");
  const chartSheets = [...relations.matchAll(/<Relationship [^>]*Target="[^"]*chartsheets\/[^>]*>/g)].map(([relation]) => /Id="([^"]+)"/.exec(relation)?.[1]);
  set("xl/_rels/workbook.xml.rels", relationsTo(relations, /worksheets\/|theme\/|styles\.xml|sharedStrings\.xml|metadata\.xml/));
  let workbook = without(await parts.read("xl/workbook.xml"), ["externalReferences", "pivotCaches", "extLst"]);
  for (const id of chartSheets) workbook = workbook.replace(new RegExp(`<sheet [^>]*r:id="${id}"[^>]*/>`), "");
  set("xl/workbook.xml", workbook);
  for (const name of parts.names) {
    if (/^xl\/worksheets\/[^/]+\.xml$/.test(name)) {
      set(name, without(await parts.read(name), ["drawing", "legacyDrawing", "legacyDrawingHF", "picture", "oleObjects", "controls", "extLst"]));
    } else if (/^xl\/worksheets\/_rels\//.test(name)) {
      set(name, relationsTo(await parts.read(name), /tables\//));
    }
  }
  return editor.bytes();
}

function relationsTo(xml: string, targets: RegExp): string {
  return xml.replace(/<Relationship [^>]*>/g, (relation) => (targets.test(/Target="([^"]*)"/.exec(relation)?.[1] ?? "") || /Type="[^"]*\/hyperlink"/.test(relation) ? relation : ""));
}

function without(xml: string, elements: readonly string[]): string {
  return elements.reduce((text, name) => text.replace(new RegExp(`<${name}(?: [^>]*)?/>|<${name}(?: [^>]*)?>[^]*?</${name}>`, "g"), ""), xml);
}

/** What a copy has of a kind that this page does not read from files but writes by itself. */
export interface KeptParts {
  readonly charts: number;
  /** Sheets with limits for what is typed. */
  readonly limitedSheets: number;
}

/** What this page does not model, as a person names it, by the parts of the file that hold it. */
const lostByPart: readonly [string, RegExp][] = [
  ["charts", /^xl\/(charts\/chart(?:Ex)?\d*|chartsheets\/[^/]+)\.xml$/],
  ["images", /^xl\/media\//],
  ["macros", /vbaProject\.bin$/],
  ["pivot tables", /^xl\/pivotTables\/[^/]+\.xml$/],
  ["slicers or timelines", /^xl\/(slicers|timelines)\/[^/]+\.xml$/],
  ["comments", /^xl\/(threadedComments\/|comments)[^/]*\.xml$/],
  ["links to other workbooks", /^xl\/externalLinks\/[^/]+\.xml$/],
  ["data connections", /^xl\/(connections\.xml|queryTables\/[^/]+\.xml)$/],
  ["the data model", /^xl\/model\//],
  ["embedded objects or controls", /^xl\/(embeddings|activeX|ctrlProps)\//],
];

/** The same by what stands in the sheets. */
const lostInSheets: readonly [string, RegExp][] = [
  ["conditional formatting", /<(x14:)?conditionalFormatting[ >]/],
  ["data validation", /<(x14:)?dataValidation[ >]/],
  ["sheet protection", /<sheetProtection[ /]/],
  ["filters", /<filterColumn[ >]/],
  ["sparklines", /<x14:sparklineGroup[ >]/],
  ["hyperlinks", /<hyperlink[ >]/],
  ["grouped rows or columns", /outlineLevel="[1-9]/],
  ["headers and footers", /<(odd|even|first)(Header|Footer)>/],
];

/** What a copy saved by this page will not hold. `kept` are the charts and limits that the page itself writes. */
export async function lostIn(parts: Parts, kept: KeptParts): Promise<string[]> {
  const count = (pattern: RegExp) => parts.names.filter((name) => pattern.test(name)).length;
  const lost = lostByPart.filter(([what, pattern]) => count(pattern) > (what === "charts" ? kept.charts : 0)).map(([what]) => what);
  const drawn = count(/^xl\/(charts|chartsheets|media)\//);
  if (count(/^xl\/drawings\/drawing[^/]*\.xml$/) > 0 && drawn === 0) lost.push("shapes");
  const sheets = await Promise.all(parts.names.filter((name) => /^xl\/(worksheets|tables)\/[^/]+\.xml$/.test(name)).map((name) => parts.read(name)));
  for (const [what, pattern] of lostInSheets) {
    const found = sheets.filter((xml) => pattern.test(xml)).length;
    if (found > (what === "data validation" ? kept.limitedSheets : 0)) lost.push(what);
  }
  return lost;
}
