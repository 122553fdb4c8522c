/** How often the verdict on a log says what is not so, and how often it finds what is. */
import { logVerdict, type LogVerdict } from "../../shared/decisions/log-verdict.ts";
import { logSignals } from "../../shared/log/index.ts";
import { luckOf, type Luck } from "./luck.ts";
import { rateOf, type Rate } from "./rate.ts";

const rounds = 20_000;
const wanted = { low: 24, high: 30, unit: "s" };

/** Shots of a level, each by its number, that scatter by one second. */
function log(luck: Luck, shots: number, level: (shot: number) => number): number[] {
  return Array.from({ length: shots }, (_, index) => level(index + 1) + luck.around(0, 1));
}

export function logVerdictRates(): Rate[] {
  const luck = luckOf(1);
  const verdict = (shots: number, level: (shot: number) => number): LogVerdict => logVerdict({ values: log(luck, shots, level) })(wanted);
  const rates: Rate[] = [];

  for (const shots of [10, 15, 20, 30, 60, 100, 300]) {
    const seen = { moved: 0, odd: 0, signals: 0, fits: 0, wide: 0, off: 0, remarks: 0 };
    for (let round = 0; round < rounds; round++) {
      const values = log(luck, shots, () => 27);
      const { rules, steady } = logVerdict({ values })(wanted);
      if (rules.steady === "moved" || rules.steady === "drifted") seen.moved++;
      if (rules.steady === "odd") seen.odd++;
      if (rules.tight === "fits") seen.fits++;
      if (rules.tight === "too wide") seen.wide++;
      if (rules.centred === "off") seen.off++;
      if (/in turn|besides/.test(steady)) seen.remarks++;
      // For comparison: what any signal of the usual three rules would have said.
      if (logSignals({ values }).some((it) => it !== "")) seen.signals++;
    }
    const of = (count: number): number => count / rounds;
    rates.push(
      { what: `steady log of ${shots}: moved, drifted or odd`, rate: of(seen.moved + seen.odd), aim: "4 to 6 %" },
      { what: `steady log of ${shots}: any of Nelson's signals 1 to 3, for comparison`, rate: of(seen.signals) },
      { what: `steady log of ${shots}: neighbours remarked on`, rate: of(seen.remarks), aim: "at most 1.5 %" },
      { what: `centred log of ${shots}: off the middle`, rate: of(seen.off), aim: "at most 5 %" },
      { what: `spread exactly as wanted, ${shots}: fits`, rate: of(seen.fits), aim: "at most 5 %" },
      { what: `spread exactly as wanted, ${shots}: too wide`, rate: of(seen.wide), aim: "at most 5 %" },
    );
  }

  const found = (what: string, shots: number, level: (shot: number) => number, says: (rules: LogVerdict["rules"]) => boolean): void => {
    rates.push({ what, rate: rateOf(rounds / 10, () => says(verdict(shots, level).rules)) });
  };
  const moves = ({ steady }: LogVerdict["rules"]): boolean => steady === "moved" || steady === "drifted";
  found("2 SD slower from the middle of 40 on: moved or drifted", 40, (shot) => (shot > 20 ? 28 : 26), moves);
  found("1 SD slower from the middle of 40 on: moved or drifted", 40, (shot) => (shot > 20 ? 27.5 : 26.5), moves);
  found("3 SD slower for 4 of 22 shots: moved or drifted", 22, (shot) => (shot > 18 ? 30 : 27), moves);
  found("drift by 3 SD over 40: moved or drifted", 40, (shot) => 25.5 + (3 * shot) / 40, moves);
  found("one shot of 40 that is 6 SD off: odd", 40, (shot) => (shot === 17 ? 33 : 27), ({ steady }) => steady === "odd");
  found("1.5 s slow, 30 shots: off the middle", 30, () => 28.5, ({ centred }) => centred === "off");
  return rates;
}
