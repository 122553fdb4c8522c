/** How often the verdict on a log says what is not so, and how often it finds what is. */
import { logVerdict, type LogVerdict } from "../../shared/decisions/log-verdict.ts";
import { logSignals } from "../../shared/log/index.ts";
import type { Draw, Simulation } from "./simulation.ts";

type Rules = LogVerdict["rules"];

/** Shots that scatter by one second about a level, each by its number. */
function made({ normal }: Draw, shots: number, level: (shot: number) => number): number[] {
  return Array.from({ length: shots }, (_, index) => level(index + 1) + normal());
}

/** Six standard deviations are wanted: a Pp of exactly 1 where the log is steady. */
const wanted = { low: 24, high: 30 };

function judged(topic: string, what: string, shots: number, level: (shot: number) => number, event: (verdict: LogVerdict) => boolean, aim?: Simulation["aim"]): Simulation {
  return { topic, what, ...(aim && { aim }), event: (draw) => event(logVerdict({ values: made(draw, shots, level) })(wanted)) };
}

const moves = ({ steady }: Rules): boolean => steady === "moved" || steady === "drifted";

function falseAlarms(shots: number): Simulation[] {
  const steady = (what: string, aim: Simulation["aim"], event: (verdict: LogVerdict) => boolean): Simulation =>
    judged("Log judged steady or not", `${shots} steady shots: ${what}`, shots, () => 27, event, aim);
  const tight = (says: Rules["tight"]): Simulation =>
    judged("Log judged tight, its spread exactly as wanted", `${shots} shots: ${says}`, shots, () => 27, ({ rules }) => rules.tight === says, [0, 0.05]);
  return [
    steady("said to have moved, drifted or an odd one", [0.04, 0.06], ({ rules }) => moves(rules) || rules.steady === "odd"),
    {
      topic: "Log judged steady or not", what: `${shots} steady shots: any of Nelson's signals 1 to 3`,
      event: (draw) => logSignals({ values: made(draw, shots, () => 27) }).some((it) => it !== ""),
    },
    steady("neighbours remarked on", [0, 0.015], ({ steady: text }) => /in turn|besides/.test(text)),
    tight("fits"),
    tight("too wide"),
    judged("Log judged centred, its mean in the middle", `${shots} shots: said to be off`, shots, () => 27, ({ rules }) => rules.centred === "off", [0, 0.05]),
  ];
}

const finds = "Log whose movement is found";

export const logs: readonly Simulation[] = [
  ...[10, 15, 30, 100, 300].flatMap(falseAlarms),
  judged(finds, "60 shots, a step of 2 SD in the middle: said to have moved", 60, (shot) => (shot <= 30 ? 26 : 28), ({ rules }) => rules.steady === "moved", [0.9, 1]),
  judged(finds, "40 shots, a step of 1 SD in the middle", 40, (shot) => (shot <= 20 ? 26.5 : 27.5), ({ rules }) => moves(rules)),
  judged(finds, "22 shots, the last four 3 SD slower", 22, (shot) => (shot > 18 ? 30 : 27), ({ rules }) => moves(rules), [0.7, 1]),
  judged(finds, "40 shots, a drift by 3 SD", 40, (shot) => 25.5 + (3 * shot) / 40, ({ rules }) => moves(rules), [0.8, 1]),
  judged(finds, "40 shots, one 6 SD off: an odd one", 40, (shot) => (shot === 17 ? 33 : 27), ({ rules }) => rules.steady === "odd", [0.9, 1]),
  judged(finds, "30 shots, 1.5 SD slow: off the middle", 30, () => 28.5, ({ rules }) => rules.centred === "off", [0.95, 1]),
];
