/** Dial-in: settings and times tried, and the setting that gives the time wanted; with days, the next one from today's shots. */
import { call, drawn, given, quoted, say } from "./formulas";
import type { Figures, ReadySheet } from "./ready-sheet";
import type { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { typeHere, worksOut } from "./words";

/** Places at which the curve is worked out. */
const steps = 60;
/** Each place stands twice, for the two edges of the band. */
const places = 2 * steps;
/** Shots that the chart looks at. */
const charted = 120;

function describe(sheet: SheetBuilder): SheetDescription {
  const time = sheet.format("time");
  const [days, settings, times] = ["Day", "Setting", "Time"].map((heading) => sheet.column(heading)) as [string, string, string];
  const [target, tolerance] = [sheet.named("time"), sheet.named("time_tolerance")];
  sheet.columns([9, 9, 9, 24, 2, 22, 10, 10, 10, 14]);

  sheet.put("A1", "title", "Dial-in");

  // Where several days are typed, the last one is today, and the others are its log.
  const dayOf = `IF(${settings}="","",IF(${days}="","-",${days}))`;
  const isTimed = `ISNUMBER(${times})`;
  const isSeveral = sheet.working("Several days", `IF(IFERROR(ROWS(UNIQUE(FILTER(${dayOf},${isTimed}))),0)>1,1,0)`);
  const lastDay = sheet.working("Today", `IF(COUNT(${times})=0,"",INDEX(FILTER(${dayOf},${isTimed}),COUNT(${times}),1))`);
  const isToday = `${isSeveral}*(${dayOf}=${lastDay})>0`;
  const ofToday = (list: string) => `IF(${isToday},${given(list)},"")`;
  const earlier = (list: string) => `IF(${isToday},"",${given(list)})`;
  const [, sentence, setting, low, high] = sheet.workingColumn(
    ["Rule", "Sentence", "Setting", "Low", "High"],
    call("GRIND.ADVICE", ofToday(settings), ofToday(times), target, tolerance, earlier(settings), earlier(times), earlier(dayOf)), 1,
  );
  sheet.decision("J",
    `${sentence}&""`,
    `IF(${isSeveral}=1,${quoted("Today is the last day typed; the earlier days say how far a step goes.")},"")`,
  );

  sheet.put("A5", "group", typeHere);
  sheet.unitRow("B6", [{ words: "grinder" }, "time"]);
  sheet.table("", "A7", 20, [["Day", "days"], ["Setting", "settings", { format: "0.0##" }], ["Time", "time"], ["Note", "text"]]);

  sheet.put("F5", "group", typeHere);
  sheet.put("F6", "label", "Time wanted");
  sheet.input("G6", "time", "time", 27);
  sheet.put("F7", "label", "Give or take");
  sheet.difference("G7", "time_tolerance", "time", 2);
  sheet.unit("H7", "time");

  sheet.put("F9", "group", worksOut);
  sheet.row("F10", "heading", ["", "Next", "From", "To", "Unit"]);
  sheet.put("F11", "label", "Grind setting");
  [setting, low, high].forEach((cell, index) => sheet.result(`${"GHI"[index]}11`, `IF(ISNUMBER(${cell}),${cell},"")`, "0.00"));
  sheet.unit("J11", { words: "grinder" });
  const curve = (at: string) => call("TIME.FORGRIND", settings, times, at);
  sheet.put("F12", "label", "Time to expect there");
  sheet.spill("G12", `IF(ISNUMBER(G11)*(${isSeveral}=0),IFERROR(${curve("G11")},""),"")`, 1, [time, time, time]);
  sheet.unit("J12", "time");

  const [place] = sheet.workingColumn(
    ["Place"], `IF(SEQUENCE(${places})*((COUNT(${times})<2)+${isSeveral})>0,NA(),MIN(${settings})+(MAX(${settings})-MIN(${settings}))*INT((SEQUENCE(${places})-1)/2)/${steps - 1})`, places, ["0.00"],
  );
  const [expected, from, to] = sheet.workingColumn(["Expected", "From", "To"], curve(place!), places, [time, time, time]);
  const [edge] = sheet.workingColumn(["Edge"], `IF(MOD(INT(SEQUENCE(${places})/2),2)=0,${from},${to})`, places, [time]);
  const isEmpty = `COUNT(${times})=0`;
  const [end] = sheet.workingColumn(["End"], `IF(SEQUENCE(2)*(${isEmpty})>0,NA(),IF(SEQUENCE(2)=1,MIN(${settings}),MAX(${settings})))`, 2, ["0.00"]);
  const [wanted] = sheet.workingColumn(["Wanted"], `IF(SEQUENCE(2)*(${isEmpty})>0,NA(),${target})`, 2, [time]);
  const [next] = sheet.workingColumn(["Next"], `IF(ISNUMBER(G11),G11,NA())`, 1, ["0.00"]);
  const [nextTime] = sheet.workingColumn(["Wanted there"], `IF(ISNUMBER(G11),${target},NA())`, 1, [time]);
  const [shotSetting] = sheet.workingColumn(["Setting"], drawn(settings), charted, ["0.00"]);
  const [shotTime] = sheet.workingColumn(["Time"], drawn(times), charted, [time]);
  const count = `COUNT(${times})`;
  sheet.sentence("F14", "note", `IF(${isEmpty},"The chart fills as shots are typed.",${say`In words: ${count}${`IF(${count}=1," shot"," shots")`}, ${sheet.said(`MIN(${times})`, "time")} to ${sheet.said(`MAX(${times})`, "time")}${
    `IF(COUNT(${expected})>0,"; one new shot would lie in the band","")`}.`})`);
  sheet.chart({
    title: "Shot time over grind setting",
    from: "F15",
    to: "J32",
    xTitle: sheet.working("Settings axis", quoted("Grind setting")),
    yTitle: sheet.working("Times axis", say`Shot time, ${"C6"}`),
    words: "F14",
    series: [
      { name: "Where one new shot would lie", look: "band", x: place!, y: edge! },
      { name: "Expected", look: "line", x: place!, y: expected! },
      { name: "Time wanted", look: "dashed", x: end!, y: wanted! },
      { name: "Shots", look: "points", x: shotSetting!, y: shotTime! },
      { name: "Next setting", look: "target", x: next!, y: nextTime! },
    ],
  });
  sheet.lines("F34", "footnote", 66, [
    `Method: straight line of log time on setting, within days; the interval is for one new shot, by inversion. ${call("SOURCE", quoted("GRIND.ADVICE"))} has the source.`,
    "Change one thing at a time: the same dose, basket, beverage mass, pressure and coffee for all shots.",
  ]);

  return sheet.described({
    name: "Dial-in",
    purpose: "Type a few settings and their shot times; it tells the setting for the time you want, and how sure that is.",
    frozenRows: 7,
    print: { area: "A1:J38", landscape: true, onePage: true },
  });
}

const example: Figures = {
  columns: { "": { Setting: [2.8, 2.6, 2.4, 2.2, 2.0, 2.3], Time: [19.5, 22, 25.5, 29.5, 34, 27], Note: ["fast, pale", undefined, undefined, undefined, "drips"] } },
};

export const dialIn: ReadySheet = { describe, example };
