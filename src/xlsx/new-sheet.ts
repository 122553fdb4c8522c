/** Adds a sheet that was made in this page to an opened file. */
import { lineChanges, type CellChange } from "./compare";
import type { FunctionNames } from "./formula-in-file";
import { Package, relationsPart, relativeTarget } from "./package";
import { cellsXml, type CellTools } from "./patch-cells";
import { patchColumns, patchMerges, patchView, withSection } from "./patch-sheet";
import { patchFilter } from "./patch-filters";
import { patchTables } from "./patch-tables";
import { readySheetOn } from "./ready-sheets";
import { pairTables } from "./table-changes";
import { readWorkbookPart } from "./workbook-part";
import { cellsOf, type DefinedName, type Sheet, type Workbook } from "./workbook";
import { eachElement, escaped } from "./xml";

const contentType = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";

export interface AddedSheet {
  /** The id of the workbook's relation to it. */
  readonly relation: string;
  /** Names that it needs and that this page does not show, such as its print area. */
  readonly names: readonly DefinedName[];
  /** What cannot be kept, as sentences. */
  readonly warnings: readonly string[];
}

export async function addSheet(file: Package, sheet: Sheet, workbook: Workbook, tools: CellTools, ours: FunctionNames): Promise<AddedSheet> {
  const part = file.freeName(`${file.folder}worksheets/sheet`, ".xml");
  const changes = [...cellsOf(sheet)].map(({ row, column, cell }): CellChange => {
    const content = cell.formula !== undefined ? "formula" : cell.spilled ? "result" : "value";
    return { row, column, now: cell, content, ...(cell.style && { styleBefore: "none" }) };
  });
  const rows = lineChanges([], sheet.rows, "height");
  const bare =
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n` +
    `<worksheet xmlns="${file.mainNamespace}"><sheetData>${cellsXml(changes, rows, tools)}</sheetData></worksheet>`;
  const withMerges = patchMerges(patchColumns(bare, lineChanges([], sheet.columns, "width")), sheet.merges, []);
  file.setText(part, sheet.frozen || sheet.gridlines === false ? patchView(withMerges, sheet) : withMerges);
  file.addContentType(part, contentType);
  const relation = file.addRelation(file.main, "worksheet", part);
  const names = readySheetOn(workbook.names, sheet.name) ? await addExtras(file, part, sheet, workbook, ours) : [];
  patchTables(file, part, undefined, pairTables(undefined, sheet));
  return { relation, names, warnings: patchFilter(file, part, undefined, sheet) };
}

/** What a ready sheet has besides its cells, as it is written into a new workbook. */
const extras = ["sheetPr", "conditionalFormatting", "dataValidations", "printOptions", "pageMargins", "pageSetup", "headerFooter"];

/** Takes charts, limits of inputs and the page set-up of a ready sheet over from a new workbook with that sheet alone. */
async function addExtras(file: Package, part: string, sheet: Sheet, workbook: Workbook, ours: FunctionNames): Promise<DefinedName[]> {
  const { writeXlsx } = await import(/* webpackChunkName: "xlsx-new" */ "./xlsx");
  const donor = new Package(await writeXlsx({ ...workbook, sheets: [sheet] }, ours), file.fileName);
  const { sheets, names } = readWorkbookPart(donor);
  const from = sheets[0]!.relation!.target;
  const sections = new Map<string, string>();
  const xml = donor.text(from)!;
  eachElement(xml, ({ name, parent, start, end }) => {
    if (parent && !parent.parent && extras.includes(name)) sections.set(name, (sections.get(name) ?? "") + xml.slice(start, end));
  });
  let text = file.text(part)!;
  for (const [name, section] of sections) text = withSection(text, name, () => section);
  const drawing = donor.relationOf(from, "drawing");
  if (drawing) {
    const id = file.addRelation(part, "drawing", copiedPart(donor, drawing.target, file));
    text = withSection(text, "drawing", () => `<drawing xmlns:r="${file.relationTypes}" r:id="${id}"/>`);
  }
  file.setText(part, text);
  return names.flatMap(({ name, text: refersTo }) => (/^_xlnm\.Print_/.test(name) ? [{ name, refersTo, sheet: sheet.name }] : []));
}

/** Copies a part and what it points to under names that are free; answers the name of the copy. */
function copiedPart(donor: Package, part: string, file: Package): string {
  const [, start, end] = /^(.*?)\d*(\.\w+)$/.exec(part)!;
  const copy = file.freeName(start!, end!);
  file.setBytes(copy, donor.bytes(part)!);
  const type = donor.contentTypeOf(part);
  if (type !== undefined) file.addContentType(copy, type);
  const relations = donor.relationsOf(part).map(({ id, fullType, target, external }) => {
    const to = external ? target : relativeTarget(copy, copiedPart(donor, target, file));
    return `<Relationship Id="${id}" Type="${fullType}" Target="${escaped(to)}"${external ? ' TargetMode="External"' : ""}/>`;
  });
  if (relations.length > 0) {
    const namespace = "http://schemas.openxmlformats.org/package/2006/relationships";
    file.setText(relationsPart(copy), `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Relationships xmlns="${namespace}">${relations.join("")}</Relationships>`);
  }
  return copy;
}
