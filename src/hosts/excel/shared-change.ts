/**
 * How a change of units reaches others who have the workbook open. Excel tells nobody of a changed document property, but it tells everybody of a
 * changed cell: a counter on a sheet that nobody sees. The property stays the only place of the units; who hears of the counter reads it again.
 */

const sheetName = "Pucksheet units";
const counter = "A1";
const purpose = "Counts the changes of this workbook’s units, so that everybody who has it open reads them again. The units themselves are a document property.";

/** Counts a change. A workbook that takes no further sheet goes without: others then read the units when they open it. */
export async function tellOthers(): Promise<void> {
  await Excel.run({ delayForCellEdit: true }, async (context) => {
    const { worksheets } = context.workbook;
    const found = worksheets.getItemOrNullObject(sheetName);
    found.load({ name: true });
    await context.sync();
    const sheet = found.isNullObject ? worksheets.add(sheetName) : found;
    if (found.isNullObject) {
      sheet.visibility = Excel.SheetVisibility.veryHidden;
      sheet.getRange("B1").values = [[purpose]];
    }
    const cell = sheet.getRange(counter);
    cell.load({ values: true });
    await context.sync();
    cell.values = [[(Number(cell.values[0]![0]) || 0) + 1]];
    await context.sync();
  }).catch(() => undefined);
}

/** Calls back when somebody else has counted a change. */
export async function onChangeByOthers(listener: () => void): Promise<void> {
  await Excel.run({ delayForCellEdit: true }, async (context) => {
    context.workbook.worksheets.onChanged.add(async ({ source, address, worksheetId }) => {
      if (source === Excel.EventSource.remote && address === counter && (await isCounter(worksheetId))) listener();
    });
    await context.sync();
  });
}

function isCounter(worksheetId: string): Promise<boolean> {
  return Excel.run({ delayForCellEdit: true }, async (context) => {
    const sheet = context.workbook.worksheets.getItemOrNullObject(sheetName);
    sheet.load({ id: true });
    await context.sync();
    return !sheet.isNullObject && sheet.id === worksheetId;
  });
}
