/** A page with the grid library as it comes; with "?repaired" as its address's query, with the repairs of the browser sheet. */
import { LocaleType, LogLevel, mergeLocales, Univer } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import { UniverSheetsCorePreset } from "@univerjs/preset-sheets-core";
import enUS from "@univerjs/preset-sheets-core/locales/en-US";
import { CalculationMode } from "@univerjs/sheets-formula";
import { UniverSheetsTablePlugin } from "@univerjs/sheets-table";
import { ILayoutService } from "@univerjs/ui";
import "@univerjs/preset-sheets-core/lib/index.css";
import "./page.css";
import { repairedFunctions, repairEngine, repairLibrary } from "../../../src/hosts/browser/grid/repaired-engine.ts";
import { repairPage } from "../../../src/hosts/browser/grid/repaired-page.ts";

const isRepaired = location.search === "?repaired";
const element = document.getElementById("grid")!;
if (isRepaired) repairLibrary();
const univer = new Univer({ locale: LocaleType.EN_US, locales: { [LocaleType.EN_US]: mergeLocales(enUS) }, logLevel: LogLevel.SILENT });
const preset = UniverSheetsCorePreset({
  container: element,
  toolbar: false,
  footer: { sheetBar: true, statisticBar: true, menus: false, zoomSlider: false },
  formula: { function: (isRepaired ? repairedFunctions() : []) as never, initialFormulaComputing: CalculationMode.FORCED },
});
univer.registerPlugins(preset.plugins.map((plugin) => (Array.isArray(plugin) ? plugin : [plugin])) as never);
univer.registerPlugin(UniverSheetsTablePlugin);
const api = FUniver.newAPI(univer);
const injector = univer.__getInjector();
const focus = () => injector.get(ILayoutService).focus();
api.createWorkbook({ id: "book" });
if (isRepaired) {
  repairEngine(api, injector);
  repairPage(element, api, injector, focus);
}
await api.getFormula().onCalculationResultApplied(10_000);
focus();
Object.assign(globalThis, { api });
