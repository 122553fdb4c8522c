/** Workbooks put together part by part, for what no program writes. */
import { strToU8, zipSync } from "fflate";

const namespaces =
  `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"`;

export interface SheetParts {
  /** The inside of the worksheet. */
  readonly sheet?: string;
  /** The inside of the workbook before and after its sheets. */
  readonly workbook?: string;
  readonly sheets?: string;
  readonly names?: string;
  readonly strings?: string;
  readonly styles?: string;
  /** Further parts by name. */
  readonly parts?: Readonly<Record<string, string | Uint8Array>>;
  /** Further relations of the workbook, and of the sheet. */
  readonly workbookRelations?: string;
  readonly sheetRelations?: string;
  readonly contentTypes?: string;
  readonly packageRelations?: string;
}

export function relation(id: string, type: string, target: string): string {
  return `<Relationship Id="${id}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/${type}" Target="${target}"/>`;
}

/** A workbook with a sheet "Log" in xl/worksheets/sheet1.xml. */
export function packed(given: SheetParts = {}): Uint8Array {
  const relations = (inside: string) => `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${inside}</Relationships>`;
  const main = "application/vnd.openxmlformats-officedocument.spreadsheetml";
  const parts: Record<string, string | Uint8Array> = {
    "[Content_Types].xml":
      `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/>` +
      `<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
      `<Override PartName="/xl/workbook.xml" ContentType="${main}.sheet.main+xml"/>` +
      `<Override PartName="/xl/worksheets/sheet1.xml" ContentType="${main}.worksheet+xml"/>${given.contentTypes ?? ""}</Types>`,
    "_rels/.rels": relations(relation("rId1", "officeDocument", "xl/workbook.xml") + (given.packageRelations ?? "")),
    "xl/workbook.xml":
      `<workbook ${namespaces}>${given.workbook ?? ""}<sheets>${given.sheets ?? `<sheet name="Log" sheetId="1" r:id="rId1"/>`}</sheets>` +
      `${given.names === undefined ? "" : `<definedNames>${given.names}</definedNames>`}</workbook>`,
    "xl/_rels/workbook.xml.rels": relations(
      relation("rId1", "worksheet", "worksheets/sheet1.xml") +
        (given.strings === undefined ? "" : relation("rId2", "sharedStrings", "sharedStrings.xml")) +
        (given.styles === undefined ? "" : relation("rId3", "styles", "styles.xml")) +
        (given.workbookRelations ?? ""),
    ),
    "xl/worksheets/sheet1.xml": `<worksheet ${namespaces}>${given.sheet ?? "<sheetData/>"}</worksheet>`,
    ...(given.strings !== undefined && { "xl/sharedStrings.xml": `<sst ${namespaces}>${given.strings}</sst>` }),
    ...(given.styles !== undefined && { "xl/styles.xml": `<styleSheet ${namespaces}>${given.styles}</styleSheet>` }),
    ...(given.sheetRelations !== undefined && { "xl/worksheets/_rels/sheet1.xml.rels": relations(given.sheetRelations) }),
    ...given.parts,
  };
  return zipSync(Object.fromEntries(Object.entries(parts).map(([name, content]) => [name, typeof content === "string" ? strToU8(content) : content])));
}

/** A worksheet by itself, for further sheets. */
export function worksheet(inside: string): string {
  return `<worksheet ${namespaces}>${inside}</worksheet>`;
}
