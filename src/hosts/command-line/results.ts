/** The results of a run as files. */
import { LogSums, type Window } from "../../log-file/log-sums";
import type { CafeState } from "../../log-file/cafe";
import { shownNumber, writeWhole, type CsvFile, type ResultForm } from "./csv-file";
import { findingHeadings, summaryHeadings } from "./headings";
import type { Surroundings } from "./report-workbook";

/** All findings, from the parts that were written log by log. */
export function writeFindings(file: CsvFile, parts: readonly string[]): void {
  file.begin(findingHeadings);
  file.take(parts);
  file.end();
}

/** Every café and setting, over all rows and over those without a finding. */
export function writeSummary(file: CsvFile, cafes: readonly CafeState[], form: ResultForm): void {
  file.begin(summaryHeadings);
  for (const { cafe, state } of cafes) {
    for (const { rows, settings } of LogSums.of(state).summary()) {
      file.write(settings.map((it) => [
        rows, cafe, typeof it.anySetting === "number" ? shownNumber(it.anySetting, form) : it.anySetting, String(it.shots),
        ...[
          it.meanRatio, it.sdRatio, it.meanTime, it.sdTime, it.meanStrength, it.sdStrength, it.meanExtraction, it.sdExtraction,
        ].map((value) => shownNumber(value, form)),
      ]));
    }
  }
  file.end();
}

/** `place` is where the report will stand in the end. */
export async function writeReport(path: string, place: string, cafes: readonly CafeState[], windows: readonly Window[], around: Surroundings): Promise<void> {
  // What writes workbooks takes its time to load, and a run that is refused has no report.
  const [{ reportSheets }, { writeDescribedSheets }] = await Promise.all([import("./report-workbook"), import("../../xlsx/xlsx")]);
  writeWhole(path, place, await writeDescribedSheets(reportSheets(cafes, windows, around)));
}
