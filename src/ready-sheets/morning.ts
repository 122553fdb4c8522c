/** Morning: for a tablet on the wall. One shot typed, the next setting large. */
import { call, quoted } from "./formulas";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere } from "./words";

function describe(sheet: SheetBuilder): SheetDescription {
  const [settings, times] = [sheet.column("Setting"), sheet.column("Time")];
  const earlier = ["Setting", "Time", "Day"].map((heading) => sheet.column(heading, "Earlier"));
  sheet.columns([11, 11, 2, 15, 9, 5, 2, 11, 11, 11]);
  sheet.put("A1", "title", "Morning");

  const [, sentence, next] = sheet.workingColumn(
    ["Rule", "Sentence", "Setting", "Low", "High"],
    call("GRIND.ADVICE", settings, times, sheet.named("time"), sheet.named("time_tolerance"), ...earlier), 1,
  );
  // As many digits as the sentence says: one more than are typed, up to two.
  const fractions = [settings, earlier[0]!].map((list) => `SUM(IF(ISNUMBER(${list}),ABS(${list}-ROUND(${list},0)),0))`).join("+");
  sheet.across("A2", "D", "large", `IF(ISNUMBER(${next}),ROUND(${next},IF(${fractions}<0.000001,1,2))&"","–")`);
  sheet.across("A3", "J", "decision", `${sentence}&""`);

  sheet.put("A5", "group", `${typeHere}: today`);
  sheet.unitRow("A6", [{ words: "grinder" }, "time"]);
  sheet.table("", "A7", 12, [["Setting", "setting"], ["Time", "time"]]);

  sheet.put("D5", "group", typeHere);
  sheet.put("D7", "label", "Time wanted");
  sheet.input("E7", "time", "time", 27);
  sheet.put("D8", "label", "Give or take");
  sheet.difference("E8", "time_tolerance", "time", 2);
  sheet.unit("F8", "time");

  sheet.put("H5", "group", `${typeHere}: earlier mornings`);
  sheet.unitRow("I6", [{ words: "grinder" }, "time"]);
  sheet.table("Earlier", "H7", 60, [["Day", "days"], ["Setting", "settings"], ["Time", "time"]]);
  sheet.put("D10", "note", "At closing, move");
  sheet.put("D11", "note", "today’s rows to the");
  sheet.put("D12", "note", "end of the earlier.");
  sheet.lines("A24", "footnote", 44, [
    `Method: line of log time on setting within days, the level from all of today’s shots; ${call("SOURCE", quoted("GRIND.ADVICE"))} has the source.`,
    "Change one thing at a time: the same dose, basket, beverage mass, pressure and coffee.",
  ]);
  return sheet.described({
    name: "Morning",
    purpose: "Type each shot of the morning as it is pulled, and read the next grind setting from across the bar.",
    frozenRows: 3,
    print: { area: "A1:J70", repeated: "5:7" },
  });
}

const example: Figures = {
  columns: {
    "": { Setting: [2.3], Time: [31] },
    Earlier: {
      Day: ["Mon", "Mon", "Mon", "Tue", "Tue", "Tue", "Wed", "Wed", "Wed"],
      Setting: [2.3, 2.1, 2.25, 2.3, 2.4, 2.35, 2.4, 2.2, 2.3],
      Time: [24.5, 29.5, 25, 29.5, 27, 28, 25.5, 30, 28],
    },
  },
};

export const morning: ReadySheet = { describe, example };
