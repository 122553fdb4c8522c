/** A workbook's units go with its file from the browser sheet to Excel and back. */
import { editZip, unzip } from "@cj-tech-master/excelts/archive";
import { afterAll, beforeAll, expect, test } from "vitest";
import { unitsProperty } from "../../src/sheet/unit-choice.ts";
import { ExcelHost } from "../excel-host/open-excel.ts";
import { openSheet, useBrowser } from "./open-sheet.ts";

useBrowser();
let excel: ExcelHost;
beforeAll(async () => {
  excel = await ExcelHost.launch();
});
afterAll(() => excel.close());

const part = "docProps/custom.xml";
const value = new RegExp(`(name="${unitsProperty}"><vt:lpwstr>)([^<]*)`);

test("a file of the browser sheet opens in Excel with its units, and comes back with those chosen there", async () => {
  const sheet = await openSheet();
  const pane = await sheet.pane();
  await pane.getByRole("group", { name: "Percentages" }).getByLabel(/percent cells/).check();
  await pane.getByRole("status").filter({ hasText: /recalculated/i }).waitFor();
  const { bytes } = await sheet.saved("Save copy (.xlsx)");
  const properties = new TextDecoder().decode((await unzip(bytes).bytes(part))!);

  const book = await excel.open({ properties: { [unitsProperty]: value.exec(properties)![2]! } });
  await book.type("A1", "=ESPRESSO.SOLIDS(36,0.1)");
  expect(await book.value("A1")).toBeCloseTo(3.6, 12);
  await book.pane.getByRole("group", { name: "Masses" }).getByRole("radio", { name: "oz", exact: true }).check();
  await book.pane.getByRole("status").filter({ hasText: "read and shown in oz" }).waitFor();
  const chosen = (await book.properties())[unitsProperty] as string;
  await book.close();

  // Excel keeps the property in the same part of the file; the stand-in for Excel has no file, so it is put there here.
  const edited = await editZip(bytes);
  edited.set(part, properties.replace(value, `$1${chosen}`));
  await sheet.openFile("from Excel.xlsx", await edited.bytes());
  await sheet.opened("from Excel.xlsx");
  expect(await pane.getByRole("group", { name: "Masses" }).getByLabel("oz").isChecked()).toBe(true);
  expect(await pane.getByRole("group", { name: "Percentages" }).getByLabel(/percent cells/).isChecked()).toBe(true);
});
