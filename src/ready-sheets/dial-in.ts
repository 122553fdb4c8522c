/** Dial-in: settings and times tried, and the setting that gives the time wanted. */
import { spelled } from "../sheet/spelling";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

/** Places at which the curve is worked out. */
const steps = 60;
/** Each place stands twice, for the two edges of the band. */
const rows = 2 * steps;
const first = 6;

export function dialIn(s: SheetBuilder): SheetDescription {
  const { prefix } = s;
  const time = s.format("time");
  const settings = `${prefix}[Setting]`;
  const times = `${prefix}[Time]`;
  const both = `${settings},${times}`;
  const target = `${prefix}_time`;
  const confidence = `${prefix}_confidence`;

  s.put("A1", "title", "Dial-in");
  s.put("A2", "note", "Pull a shot at each of a few settings with everything else the same, and type setting and time. Three shots or more give an interval.");
  s.put("A3", "group", typeHere);
  s.unitRow("A4", [{ words: "grinder" }, "time"]);
  s.table("", "A5", 20, [["Setting", "settings", { format: "0.00" }], ["Time", "time"], ["Note", "text"]]);

  s.put("E3", "group", `${typeHere}: what you want`);
  s.row("E5", "heading", ["", "Wanted", "Unit"]);
  s.put("E6", "label", "Shot time");
  s.input("F6", "time", "time", 27);
  s.put("E7", "label", "Sure to be right");
  s.input("F7", "confidence", "confidence", 0.95, { format: "0%", unitBeside: false });

  s.put("E9", "group", worksOut);
  s.row("E10", "heading", ["", "Expected", "From", "To", "Unit"]);
  s.put("E11", "label", "Grind setting");
  s.spill("F11", `IF(COUNT(${times})<2,"",${spelled("GRIND.FORTIME")}(${both},${target},${confidence}))`, 1, ["0.00", "0.00", "0.00"]);
  s.unit("I11", { words: "grinder" });
  s.put("E12", "label", "Time of the next shot");
  s.spill("F12", `IF(ISNUMBER(F11),${spelled("TIME.FORGRIND")}(${both},F11,${confidence}),"")`, 1, [time, time, time]);
  s.unit("I12", "time");
  const asked = `COUNT(${times})<2`;
  s.sentence(
    "E14",
    "verdict",
    `IF(${asked},"Type at least two settings and their shot times.",IF(ISNUMBER(F11),"Set the grinder to "&FIXED(F11,2,TRUE)&".","No setting: the wanted time lies outside the times tried, or they show no trend."))`,
  );
  s.sentence(
    "E15",
    "verdict",
    `IF(${asked},"",IF(ISNUMBER(G12),"One shot there would take "&${s.said("G12", "time")}&" to "&${s.said("H12", "time")}&", "&FIXED(100*${confidence},0,TRUE)&" times in 100.",IF(ISNUMBER(F11),"Pull one more shot to see how sure that is.","")))`,
  );
  s.lines("E16", "footnote", 90, [
    `Method: straight line of log time on setting; the interval is for one new shot, by inversion. ${spelled("SOURCE")}("GRIND.FORTIME") has the source.`,
    "Change one thing at a time: the same dose, basket, beverage mass, pressure and coffee for all shots.",
  ]);

  const last = first + rows - 1;
  const inner = (letters: string) => `${letters}${first}:${letters}${last}`;
  s.sentence(
    "E21",
    "note",
    `IF(${asked},"The chart fills as shots are typed.","In words: "&COUNT(${times})&" shots, settings "&FIXED(MIN(${settings}),2,TRUE)&" to "&FIXED(MAX(${settings}),2,TRUE)` +
      `&", times "&${s.said(`MIN(${times})`, "time")}&" to "&${s.said(`MAX(${times})`, "time")}&"; the band is where one new shot would lie.")`,
  );
  s.put("S3", "group", "For the chart");
  s.put("S5", "heading", "Grind setting");
  s.cell("T5", { role: "heading", formula: '"Shot time, "&B4' });
  s.row("U5", "heading", ["From", "To", "Edge"]);
  s.chartData(`S${first}`, `IF(SEQUENCE(${rows})*COUNT(${times})<2*SEQUENCE(${rows}),NA(),MIN(${settings})+(MAX(${settings})-MIN(${settings}))*INT((SEQUENCE(${rows})-1)/2)/${steps - 1})`, rows, ["0.00"]);
  s.chartData(`T${first}`, `${spelled("TIME.FORGRIND")}(${both},${inner("S")},${confidence})`, rows, [time, time, time]);
  s.chartData(`W${first}`, `IF(MOD(INT(SEQUENCE(${rows})/2),2)=0,${inner("U")},${inner("V")})`, rows, [time]);
  s.row("Y5", "heading", ["Setting", "Wanted time"]);
  s.chartData(`Y${first}`, `IF(ISNUMBER(F11),F11,NA())`, 1, ["0.00"]);
  s.chartData(`Z${first}`, `IF(ISNUMBER(F11),${target},NA())`, 1, [time]);
  s.chart({
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

  return s.described({
    name: "Dial-in",
    purpose: "Type a few settings and their shot times; it tells the setting for the time you want, and how sure that is.",
    widths: [10, 10, 26, 2, 26, 11, 10, 10, 12, 14, 14, 2, 2, 2, 2, 2, 2, 2, 14, 16, 9, 9, 9, 2, 10, 14],
    frozenRows: 5,
    print: { area: "A1:K41", landscape: true, onePage: true },
  });
}
