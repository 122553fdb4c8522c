/**
 * What the tests and decisions do on made data whose truth is known: how often a default raises a false alarm, how often a decision claims
 * a difference that is not there or names the right setting. Each simulation is one made trial and whether the event came; `npm run simulate`
 * counts many, `tests/simulations.test.ts` a few thousand of some.
 */
import { bestSetting, compareAdjustedTest, comparePairs, compareTest, equivalent, rankCorrelation, runDrift, runOrder } from "../shared/comparison/index.ts";
import { compareDecision, type TrialQuestion } from "../shared/decisions/trial.ts";
import { attempted, Problem } from "../shared/problem.ts";
import { shotsNeeded } from "../shared/uncertainty.ts";
import { logs } from "./simulate/logs.ts";
import { mornings } from "./simulate/mornings.ts";
import type { Draw, Simulation } from "./simulate/simulation.ts";
import { tasters } from "./simulate/tasters.ts";

const nominal = [0.04, 0.06] as const;
const five = (p: number | Problem): boolean => typeof p === "number" && p < 0.05;

interface Made {
  readonly settings: number[];
  readonly results: number[];
}

/** Shots of settings with these numbers, spreads and means, 0 and 1 where nothing else is said. */
function made({ normal }: Draw, counts: readonly number[], spreads: readonly number[] = [], means: readonly number[] = []): Made {
  const settings = counts.flatMap((count, setting) => new Array<number>(count).fill(setting));
  return { settings, results: settings.map((setting) => (means[setting] ?? 0) + (spreads[setting] ?? 1) * normal()) };
}

/** The same, each setting once in each block, less the first `missing` shots; blocks shift all their shots. */
function madeInBlocks(
  draw: Draw, settings: number, blocks: number, blockSpread: number, means: readonly number[] = [], missing = 0,
): Made & { blocks: number[] } {
  const shifts = Array.from({ length: blocks }, () => blockSpread * draw.normal());
  const rows = Array.from({ length: settings * blocks }, (_, shot) => ({ setting: shot % settings, block: Math.floor(shot / settings) }))
    .filter((_, shot) => shot % (settings + 1) !== 0 || shot >= missing * (settings + 1));
  return {
    settings: rows.map(({ setting }) => setting),
    blocks: rows.map(({ block }) => block),
    results: rows.map(({ setting, block }) => (means[setting] ?? 0) + shifts[block]! + draw.normal()),
  };
}

const times = (settings: number, count: number): number[] => new Array<number>(settings).fill(count);
const oneApart = (settings: number, count: number): number[] => times(settings, count).map((it, setting) => it + (setting % 2));
const falseAlarm = (data: Made): boolean => five(compareTest(data)({}).p);
const falsePair = (data: Made): boolean => comparePairs(data).some(({ p }) => five(p));

const settingNumbers = [2, 3, 4, 5, 6, 7, 8];
const shotNumbers = [2, 3, 4, 5, 6];
const alarms = (topic: string, aim: readonly [number, number], numbersOf: typeof times, spreads: readonly number[], kinds: readonly ("test" | "pairs")[]): Simulation[] =>
  settingNumbers.flatMap((settings) => shotNumbers.flatMap((shots) => kinds.map((kind): Simulation => ({
    topic, what: `${settings} × ${shots}, ${kind}`, aim,
    event: (draw) => (kind === "test" ? falseAlarm : falsePair)(made(draw, numbersOf(settings, shots), spreads)),
  }))));

const defaults: Simulation[] = [
  ...alarms("Equal spread, equal numbers", nominal, times, [], ["test", "pairs"]),
  ...alarms("Equal spread, every second setting one shot more", nominal, oneApart, [], ["test", "pairs"]),
  ...alarms("One setting three times as scattered, equal numbers", [0, 0.13], times, [3], ["test"]),
  ...alarms("One setting three times as scattered, every second one shot more", [0, 0.18], oneApart, [3], ["test"]),
  ...[[4, 12, 12, 12], [3, 6, 6], [4, 8, 8, 8], [2, 5, 5], [10, 4, 4], [12, 3, 3, 3]].map((counts): Simulation => ({
    topic: "The first setting three times as scattered, other numbers", what: `${counts.join(", ")}, test`, aim: [0, 0.12],
    event: (draw) => falseAlarm(made(draw, counts, [3])),
  })),
];

const blocked: Simulation[] = [
  ...[[4, 3], [3, 4], [6, 3], [8, 2]].flatMap(([settings, mornings]) => [0, 1, 2].map((spread): Simulation => ({
    topic: "Mornings as blocks", what: `${settings} × ${mornings}, mornings ${spread} SD, test`, aim: nominal,
    event: (draw) => falseAlarm(madeInBlocks(draw, settings!, mornings!, spread)),
  }))),
  { topic: "Mornings as blocks", what: "5 × 3, two shots lost, mornings 2 SD, test", aim: nominal, event: (draw) => falseAlarm(madeInBlocks(draw, 5, 3, 2, [], 2)) },
  { topic: "Mornings as blocks", what: "5 × 3, two shots lost, mornings 2 SD, pairs", aim: nominal, event: (draw) => falsePair(madeInBlocks(draw, 5, 3, 2, [], 2)) },
  ...[0, 1, 2].flatMap((spread): Simulation[] => [
    { topic: "Power, 4 × 3, one 2.5 SD off", what: `mornings ${spread} SD, blocks`, aim: [0.55, 1], event: (draw) => falseAlarm(madeInBlocks(draw, 4, 3, spread, [2.5])) },
    { topic: "Power, 4 × 3, one 2.5 SD off", what: `mornings ${spread} SD, left out`, event: (draw) => falseAlarm({ ...madeInBlocks(draw, 4, 3, spread, [2.5]), blocks: undefined } as Made) },
    {
      topic: "Power, 4 × 3, one 2.5 SD off", what: `mornings ${spread} SD, left out, own spreads`,
      event: (draw) => five(compareTest({ ...madeInBlocks(draw, 4, 3, spread, [2.5]), blocks: undefined })({ method: "unequal" }).p),
    },
  ]),
];

const others: Simulation[] = [
  ...[5, 9, 12, 15, 30].map((pairs): Simulation => ({
    topic: "Rank correlation of unrelated lists", what: `${pairs} pairs`, aim: [0, 0.055],
    event: ({ normal }) => five(rankCorrelation({ first: Array.from({ length: pairs }, normal), second: Array.from({ length: pairs }, normal) }).p),
  })),
  {
    topic: "Drift of steady runs", what: "4 × 3, settings apart", aim: nominal,
    event: (draw) => five(runDrift({ ...made(draw, times(4, 3), [], [0, 1, 2, 3]), runs: mixedRuns(draw) }).p),
  },
  {
    topic: "Settings at equal time", what: "4 × 3, time works, settings do not", aim: nominal,
    event: (draw) => {
      const { settings, results } = made(draw, times(4, 3));
      const shotTimes = results.map(() => 28 + 2 * draw.normal());
      return five(compareAdjustedTest({ settings, results: results.map((it, shot) => it + shotTimes[shot]!), covariates: [shotTimes] }).p);
    },
  },
  {
    topic: "Slopes at equal time", what: "3 × 4, slopes alike", aim: nominal,
    event: (draw) => {
      const { settings, results } = made(draw, times(3, 4));
      const shotTimes = results.map(() => 28 + 2 * draw.normal());
      return five(compareAdjustedTest({ settings, results, covariates: [shotTimes] }).slopesP);
    },
  },
  {
    topic: "Best setting of a true parabola", what: "5 × 3, refused for lack of fit", aim: nominal,
    event: (draw) => {
      const best = attempted(() => bestSetting(parabola(draw, 0.6))({}));
      return best instanceof Problem && String(best.words).includes("lack of fit");
    },
  },
  {
    topic: "Best setting of a true parabola", what: "5 × 3, interval holds the peak", aim: [0.93, 0.97],
    event: (draw) => {
      const best = attempted(() => bestSetting(parabola(draw, 0.6))({}));
      if (best instanceof Problem || typeof best.low !== "number" || typeof best.high !== "number") return null;
      return best.low <= 2.2 && best.high >= 2.2;
    },
  },
  {
    topic: "Equivalence of settings a margin apart", what: "8 and 8", aim: [0.04, 0.06],
    event: ({ normal }) => {
      const [first, second] = [0, 1.5].map((mean) => Array.from({ length: 8 }, () => mean + normal())) as [number[], number[]];
      return equivalent({ first, second })({ margin: 1.5 }).equivalent;
    },
  },
  ...[2, 4, 8].map((settings): Simulation => ({
    topic: "Shots needed for 1.5 SD have the power", what: `${settings} settings`, aim: [0.79, 0.9],
    event: (draw) => {
      const shots = shotsNeeded({ difference: 1.5, spread: 1, settings });
      return five(compareTest(made(draw, times(settings, shots), [], [0.75, -0.75]))({ method: "equal" }).p);
    },
  })),
];

/** Number of the run of each shot, for three shots of each of four settings one after the other in the list, pulled in mixed order. */
function mixedRuns({ seed }: Draw): number[] {
  const order = runOrder({ settings: [0, 1, 2, 3], repeats: 3, seed: seed() });
  return [0, 1, 2, 3].flatMap((setting) => order.filter((it) => it.setting === setting).map(({ run }) => run));
}

function parabola(draw: Draw, spread: number): Made {
  const means = [0, 1, 2, 3, 4].map((setting) => -((setting - 2.2) ** 2));
  return made(draw, times(5, 3), times(5, spread), means);
}

interface TrialMade {
  /** What the last setting adds to each outcome, SD. */
  readonly lifts: readonly number[];
  readonly morningSpread: number;
  readonly typed: boolean;
}

/** A trial of four settings over three mornings, in mixed order. */
function wholeTrial(draw: Draw, { lifts, morningSpread, typed }: TrialMade): TrialQuestion {
  const order = runOrder({ settings: [90, 91, 92, 93], repeats: 3, seed: draw.seed() });
  const mornings = order.map(({ run }) => Math.ceil(run / 4));
  const results = lifts.map((lift) => {
    const shifts = [0, 0, 0].map(() => morningSpread * draw.normal());
    return order.map(({ setting }, shot) => (setting === 93 ? lift : 0) + shifts[mornings[shot]! - 1]! + draw.normal());
  });
  return {
    settings: order.map(({ setting }) => setting), results, outcomes: ["Taste", "Extraction, %"].slice(0, lifts.length),
    blocks: typed ? mornings : undefined, runs: order.map(({ run }) => run), planned: 3, worth: [1], unit: "°C",
  };
}

const claims = ({ branch }: { branch: number }): boolean => branch >= 9 && branch <= 12;
const namesRight = (question: TrialQuestion): boolean => {
  const { branch, decision } = compareDecision(question)[0]!;
  return branch >= 9 && branch <= 11 && /^(Use|Keep to) [^.;]*93/.test(String(decision));
};

/** Four cups, eight tasters with levels of their own, six attributes. */
function wholePanel(draw: Draw): TrialQuestion {
  const rows = Array.from({ length: 32 }, (_, row) => ({ cup: row % 4, taster: Math.floor(row / 4) }));
  return {
    settings: rows.map(({ cup }) => "ABCD"[cup]!), blocks: rows.map(({ taster }) => taster), kind: "tasters", worth: [1],
    outcomes: ["Sweet", "Sour", "Bitter", "Body", "Clean", "Liking"],
    results: Array.from({ length: 6 }, () => {
      const levels = Array.from({ length: 8 }, () => 2 * draw.normal());
      return rows.map(({ taster }) => levels[taster]! + draw.normal());
    }),
  };
}

const decisions: Simulation[] = [
  ...[true, false].flatMap((typed): Simulation[] => {
    const mornings = typed ? "mornings 2 SD" : "no mornings";
    const trial = (lifts: number[]): TrialMade => ({ lifts, typed, morningSpread: typed ? 2 : 0 });
    const topic = "Trial decided, 4 × 3";
    return [
      { topic, what: `two outcomes, neither differs, ${mornings}: a difference claimed`, aim: [0, 0.06], event: (draw) => compareDecision(wholeTrial(draw, trial([0, 0]))).some(claims) },
      { topic, what: `one outcome, 2.5 SD, ${mornings}: the right setting named`, aim: [0.5, 1], event: (draw) => namesRight(wholeTrial(draw, trial([2.5]))) },
      { topic, what: `two outcomes, both 2.5 SD, ${mornings}: named for taste`, aim: [0.5, 1], event: (draw) => namesRight(wholeTrial(draw, trial([2.5, 2.5]))) },
      { topic, what: `two outcomes, only taste 2.5 SD, ${mornings}: named for taste`, event: (draw) => namesRight(wholeTrial(draw, trial([2.5, 0]))) },
    ];
  }),
  {
    topic: "Panel decided, 8 tasters, 4 cups, 6 attributes", what: "nothing differs: a difference claimed", aim: [0, 0.06],
    event: (draw) => compareDecision(wholePanel(draw)).some(claims),
  },
];

export const simulations: readonly Simulation[] = [...defaults, ...blocked, ...tasters, ...others, ...decisions, ...logs, ...mornings];
