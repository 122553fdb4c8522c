/** The same jobs by our functions and by R's own calls, each timed within its process, where Rscript is on this machine. Prints; judges nothing. */
import { spawnSync } from "node:child_process";

type Called = (...cells: unknown[]) => unknown;

interface Job {
  readonly what: string;
  readonly ours: () => unknown;
  /** What R calls, given `value` and `group` of the same numbers. */
  readonly r: string;
}

const groups = 12;
const each = 200;

/** The numbers of both: 12 groups with 200 values each. */
const values = Array.from({ length: groups * each }, (_, row) => 20 + (row % groups) / 50 + Math.sin(row * row));

function jobs(registered: ReadonlyMap<string, Called>): Job[] {
  const settings = values.map((_, row) => [row % groups]);
  const results = values.map((value) => [value]);
  const call = (id: string, ...cells: unknown[]): unknown => {
    const answer = registered.get(id)!(...cells, {}) as unknown[][];
    if (typeof answer[0]![0] === "object") throw new Error(`${id} answers in the bench: ${JSON.stringify(answer[0]![0])}`);
    return answer;
  };
  return [
    { what: `COMPARE.PAIRS of ${groups} settings with ${each} shots each ÷ TukeyHSD`, ours: () => call("COMPARE.PAIRS", settings, results, null, null, null), r: "TukeyHSD(aov(value ~ group))" },
    { what: "COMPARE.TEST of the same ÷ oneway.test", ours: () => call("COMPARE.TEST", settings, results, null, null), r: "oneway.test(value ~ group)" },
  ];
}

export function benchAgainstR(
  registered: ReadonlyMap<string, Called>, timed: (run: () => unknown, times: number) => number, line: (what: string, measured: string, aim?: string) => void,
): void {
  const all = jobs(registered);
  const script = [
    `value <- c(${values.map((value) => value.toPrecision(17)).join(",")}); group <- factor((seq_along(value) - 1) %% ${groups})`,
    "ms <- function(job) { job(); least <- Inf; for (turn in 1:10) { began <- proc.time()[['elapsed']]; for (i in 1:10) job(); least <- min(least, proc.time()[['elapsed']] - began) }; cat(100 * least, '\\n') }",
    ...all.map(({ r }) => `ms(function() ${r})`),
  ].join("\n");
  const { stdout, error, status } = spawnSync("Rscript", ["-"], { input: script, encoding: "utf8" });
  if (error || status !== 0) {
    line("Statistics against R", "not compared", "Rscript is not on this machine, or does not run");
    return;
  }
  const theirs = stdout.trim().split("\n").map(Number);
  all.forEach(({ what, ours }, index) => {
    const milliseconds = timed(ours, 10);
    line(what, `${(milliseconds / theirs[index]!).toFixed(2)} ×`, `aim: at most 1 × (${milliseconds.toFixed(2)} ms here, ${theirs[index]!.toFixed(2)} ms in R)`);
  });
}
