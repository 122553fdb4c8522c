/** Dial-in: settings and times tried, and the setting that gives the time wanted. */
import { spelled } from "../sheet/spelling";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

/** Places at which the curve is worked out. */
const steps = 60;
/** Each place stands twice, for the two edges of the band. */
const rows = 2 * steps;
const first = 6;

function describe(sheet: SheetBuilder): SheetDescription {
  const { prefix } = sheet;
  const time = sheet.format("time");
  const settings = `${prefix}[Setting]`;
  const times = `${prefix}[Time]`;
  const both = `${settings},${times}`;
  const target = `${prefix}_time`;
  const confidence = `${prefix}_confidence`;

  sheet.put("A1", "title", "Dial-in");
  sheet.put("A2", "note", "Pull a shot at each of a few settings with everything else the same, and type setting and time. Three shots or more give an interval.");
  sheet.put("A3", "group", typeHere);
  sheet.unitRow("A4", [{ words: "grinder" }, "time"]);
  sheet.table("", "A5", 20, [["Setting", "settings", { format: "0.00" }], ["Time", "time"], ["Note", "text"]]);

  sheet.put("E3", "group", `${typeHere}: what you want`);
  sheet.row("E5", "heading", ["", "Wanted", "Unit"]);
  sheet.put("E6", "label", "Shot time");
  sheet.input("F6", "time", "time", 27);
  sheet.put("E7", "label", "Sure to be right");
  sheet.input("F7", "confidence", "confidence", 0.95, { format: "0%", unitBeside: false });

  sheet.put("E9", "group", worksOut);
  sheet.row("E10", "heading", ["", "Expected", "From", "To", "Unit"]);
  sheet.put("E11", "label", "Grind setting");
  sheet.spill("F11", `IF(COUNT(${times})<2,"",${spelled("GRIND.FORTIME")}(${both},${target},${confidence}))`, 1, ["0.00", "0.00", "0.00"]);
  sheet.unit("I11", { words: "grinder" });
  sheet.put("E12", "label", "Time of the next shot");
  sheet.spill("F12", `IF(ISNUMBER(F11),${spelled("TIME.FORGRIND")}(${both},F11,${confidence}),"")`, 1, [time, time, time]);
  sheet.unit("I12", "time");
  const asked = `COUNT(${times})<2`;
  sheet.sentence(
    "E14",
    "verdict",
    `IF(${asked},"Type at least two settings and their shot times.",IF(ISNUMBER(F11),"Set the grinder to "&FIXED(F11,2,TRUE)&".","No setting: the wanted time lies outside the times tried, or they show no trend."))`,
  );
  sheet.sentence(
    "E15",
    "verdict",
    `IF(${asked},"",IF(ISNUMBER(G12),"One shot there would take "&${sheet.said("G12", "time")}&" to "&${sheet.said("H12", "time")}&", "&FIXED(100*${confidence},0,TRUE)&" times in 100.",IF(ISNUMBER(F11),"Pull one more shot to see how sure that is.","")))`,
  );
  sheet.lines("E16", "footnote", 90, [
    `Method: straight line of log time on setting; the interval is for one new shot, by inversion. ${spelled("SOURCE")}("GRIND.FORTIME") has the source.`,
    "Change one thing at a time: the same dose, basket, beverage mass, pressure and coffee for all shots.",
  ]);

  const last = first + rows - 1;
  const inner = (letters: string) => `${letters}${first}:${letters}${last}`;
  sheet.sentence(
    "E21",
    "note",
    `IF(${asked},"The chart fills as shots are typed.","In words: "&COUNT(${times})&" shots, settings "&FIXED(MIN(${settings}),2,TRUE)&" to "&FIXED(MAX(${settings}),2,TRUE)` +
      `&", times "&${sheet.said(`MIN(${times})`, "time")}&" to "&${sheet.said(`MAX(${times})`, "time")}&"; the band is where one new shot would lie.")`,
  );
  sheet.put("S3", "group", "For the chart");
  sheet.put("S5", "heading", "Grind setting");
  sheet.cell("T5", { role: "heading", formula: '"Shot time, "&B4' });
  sheet.row("U5", "heading", ["From", "To", "Edge"]);
  sheet.chartData(`S${first}`, `IF(SEQUENCE(${rows})*COUNT(${times})<2*SEQUENCE(${rows}),NA(),MIN(${settings})+(MAX(${settings})-MIN(${settings}))*INT((SEQUENCE(${rows})-1)/2)/${steps - 1})`, rows, ["0.00"]);
  sheet.chartData(`T${first}`, `${spelled("TIME.FORGRIND")}(${both},${inner("S")},${confidence})`, rows, [time, time, time]);
  sheet.chartData(`W${first}`, `IF(MOD(INT(SEQUENCE(${rows})/2),2)=0,${inner("U")},${inner("V")})`, rows, [time]);
  sheet.row("Y5", "heading", ["Setting", "Wanted time"]);
  sheet.chartData(`Y${first}`, `IF(ISNUMBER(F11),F11,NA())`, 1, ["0.00"]);
  sheet.chartData(`Z${first}`, `IF(ISNUMBER(F11),${target},NA())`, 1, [time]);
  sheet.chart({
    title: "Shot time over grind setting",
    from: "E22",
    to: "K41",
    xTitle: "S5",
    yTitle: "T5",
    words: "E21",
    series: [
      { name: "Where one new shot would lie", look: "band", x: inner("S"), y: inner("W") },
      { name: "Expected", look: "line", x: inner("S"), y: inner("T") },
      { name: "Shots", look: "points", x: settings, y: times },
      { name: "Setting for the wanted time", look: "target", x: `Y${first}`, y: `Z${first}` },
    ],
  });

  return sheet.described({
    name: "Dial-in",
    purpose: "Type a few settings and their shot times; it tells the setting for the time you want, and how sure that is.",
    widths: [10, 10, 26, 2, 26, 11, 10, 10, 12, 14, 14, 2, 2, 2, 2, 2, 2, 2, 14, 16, 9, 9, 9, 2, 10, 14],
    frozenRows: 5,
    print: { area: "A1:K41", landscape: true, onePage: true },
  });
}

const example: Figures = {
  columns: { "": { Setting: [2.8, 2.6, 2.4, 2.2, 2.0, 2.3], Time: [19.5, 22, 25.5, 29.5, 34, 27], Note: ["fast, pale", undefined, undefined, undefined, "drips"] } },
};

export const dialIn: ReadySheet = { describe, example };
