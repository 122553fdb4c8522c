/* eslint-disable no-console -- the rates of the simulation are a result to be read */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { logCapability, logLimits, logOdd, logSignals } from "../shared/log";
import { logSummary } from "../shared/log-summary";
import { checkShot as checkShotInWords, logCheck, type ShotContext, type TypedShot } from "../shared/log-check";
import { Problem } from "../shared/problem";
import { defaultUnits } from "../src/sheet/unit-choice";
import { worded } from "../src/sheet/wording";
import { messageOf } from "./problem-of";
import { call, CellError, grid, useUnits } from "./worksheet";
import { chance, coarseWriting, fineWriting, firstWords, mistakes, plausibleShots, type PlainShot } from "./simulated-log";

function refusal(run: () => unknown): string {
  try {
    return `answered ${JSON.stringify(run())}`;
  } catch (thrown) {
    if (thrown instanceof Problem) return messageOf(thrown);
    throw thrown;
  }
}

/** What is said of a row, in the default units. */
function checkShot(typed: TypedShot, context?: ShotContext): string {
  return worded(checkShotInWords(typed, context), defaultUnits);
}

function columnsOf(shots: readonly PlainShot[]): Parameters<typeof logCheck>[0] {
  const column = (name: keyof PlainShot): number[] => shots.map((shot) => shot[name]);
  return { dose: column("dose"), beverage: column("beverage"), time: column("time"), strength: column("strength") };
}

describe("what looks wrong in a row", () => {
  it.each([["finely", fineWriting], ["coarsely", coarseWriting]])("is hardly ever said of a plausible shot, written %s", (name, writing) => {
    const shots = plausibleShots(10_000, 20, writing);
    const flagged = logCheck(columnsOf(shots)).filter((words) => words !== "").length;
    console.log(`clean shots written ${name}: ${flagged} of ${shots.length} flagged`);
    expect(flagged).toBeLessThan(shots.length / 1000);
  });

  it("is said of 14 kinds of mistake, the true cause first", () => {
    const kinds = Object.entries(mistakes);
    expect(kinds).toHaveLength(14);
    const shots = plausibleShots(2001, 21);
    let foundOfAll = 0;
    for (const [kind, mistake] of kinds) {
      const luck = chance(22);
      let [found, named] = [0, 0];
      for (let row = 1; row < shots.length; row++) {
        const words = checkShot(mistake(shots[row]!, shots[row - 1]!, luck), { above: shots[row - 1]! });
        if (words !== "") found++;
        if (firstWords[kind]!.test(words)) named++;
      }
      const rows = shots.length - 1;
      foundOfAll += found / rows / kinds.length;
      console.log(`${kind}: ${((100 * found) / rows).toFixed(1)} % found, ${((100 * named) / rows).toFixed(1)} % with this cause first`);
      expect(found / rows, kind).toBeGreaterThanOrEqual(0.95);
      // A slip can look just like another one (7.2 g and 18 g may be a slipped point or a swap), so the cause is held less strictly.
      expect(named / rows, kind).toBeGreaterThanOrEqual(0.9);
    }
    console.log(`all kinds: ${(100 * foundOfAll).toFixed(2)} % found`);
  });

  const good: TypedShot = { dose: 18, beverage: 36, time: 27, strength: 9.5 };
  const says = (changes: Partial<TypedShot>, above?: TypedShot): string => checkShot({ ...good, ...changes }, { above });

  it("is nothing for a good row, a blank row or a shot whose strength was not read", () => {
    expect(says({})).toBe("");
    expect(says({ strength: null })).toBe("");
    expect(checkShot({ dose: null, beverage: "", time: 0, strength: null })).toBe("");
  });

  it.each<[Partial<TypedShot>, RegExp]>([
    [{ time: 0.01875 }, /^Time 0\.01875 s looks like 0:27 typed as a clock time, which a sheet takes for hours and minutes: 27 s\?$/],
    [{ time: 270 }, /^Time 270 s looks like a slipped decimal point: 27 s\?$/],
    [{ strength: 0.095 }, /^Strength 0\.095 % looks like a percent cell: 9\.5 %\?$/],
    [{ strength: 950 }, /^Strength 950 % looks like a number without its decimal point: 9\.5 %\?$/],
    [{ dose: 36, beverage: 18 }, /^Dose and beverage look swapped: 18 g and 36 g\?/],
    [{ dose: 0.64 }, /^Dose 0\.64 g looks like ounces: 18\.1437 g\?/],
    [{ strength: 1.35 }, /^Strength 1\.35 % is that of a filter coffee, not of an espresso\./],
    [{ strength: 19.5 }, /looks like the extraction: the strength would be 9\.75 %/],
    [{ beverage: 186 }, /weighed with its cup/],
    [{ dose: 0.64, time: 0.01875 }, /^Time .* clock time.*Dose 0\.64 g looks like ounces|^Dose 0\.64 g .*Time/],
    [{ dose: "18 g" }, /^Dose is the text “18 g”; ESPRESSO\.READ\.GRAMS reads 18 g\.$/],
    [{ time: "quick" }, /^Time is not a number: “quick” is not a time/],
    [{ dose: true }, /^Dose is not a number: TRUE/],
    [{ beverage: null }, /^Beverage is blank or 0\.$/],
    [{ beverage: 17, strength: null }, /lighter than the dose|swapped/],
    [{ beverage: 50, strength: 12.5 }, /^Extraction would be 34\.7222 %, more than the 30 %/],
    [{ dose: -18 }, /outside 6 to 30 g/],
    [{ dose: 1e300, beverage: 1e300 }, /outside/],
  ])("is in words: %j", (changes, words) => expect(says(changes)).toMatch(words));

  it("names a repeat of the row above only where it can be no coincidence", () => {
    const fine = { ...good, beverage: 36.2, strength: 9.53 };
    expect(checkShot(fine, { above: fine })).toMatch(/^Exactly the same shot as in the row above/);
    expect(checkShot(good, { above: good })).toBe("");
    expect(checkShot({ ...fine, strength: null }, { above: { ...fine, strength: null } })).toBe("");
  });

  it("does not ask for a column that the log does not have", () => {
    const blank = [null, null];
    expect(logCheck({ dose: [18, 18], beverage: [36, 37], time: blank, strength: blank })).toEqual(["", ""]);
    expect(logCheck({ dose: [18, 18], beverage: [36, 37], time: [27, null], strength: blank })).toEqual(["", "Time is blank or 0."]);
  });

  it("is always words that can be read, whatever the cells hold", () => {
    const cell = fc.oneof(fc.double(), fc.integer({ min: -5, max: 500 }), fc.string(), fc.boolean(), fc.constant(null));
    fc.assert(fc.property(cell, cell, cell, cell, (dose, beverage, time, strength) => {
      expect(checkShot({ dose, beverage, time, strength })).toMatch(/^$|[.?]$/);
    }), { numRuns: 2000 });
  });
});

describe("control limits", () => {
  // NIST/SEMATECH e-Handbook 6.3.2.2, flow rate example: centre 50.81, mean moving range 1.8778, limits 55.8041 and 45.8159 with d2 = 1.128.
  const flowRates = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

  it("are those of the NIST handbook's worked example", () => {
    const limits = logLimits({ values: flowRates });
    expect(limits.centre).toBeCloseTo(50.81, 10);
    // The handbook prints four decimals.
    expect(limits.high).toBeCloseTo(55.8041, 4);
    expect(limits.low).toBeCloseTo(45.8159, 4);
    // 3.267 times the mean moving range, 16.9 / 9.
    expect(limits.rangeLimit).toBeCloseTo(3.267 * 16.9 / 9, 10);
  });

  it("skip blanks", () => expect(logLimits({ values: [null, ...flowRates.slice(0, 4), null, ...flowRates.slice(4)] })).toEqual(logLimits({ values: flowRates })));
  it("need two values", () => expect(refusal(() => logLimits({ values: [36, null] }))).toBe("There is one value; limits need two or more."));
});

describe("signals", () => {
  /** Values around 0 whose mean moving range makes one standard deviation exactly 1: the rules are then read off the numbers. */
  function signals(values: (number | null)[], rules: string): string[] {
    return logSignals({ values, rules });
  }
  /** Rows, counted from 1, where a rule signals. */
  function rowsOf(words: string[], rule: string): number[] {
    return words.flatMap((it, index) => (it.split(",").includes(rule) ? [index + 1] : []));
  }
  const quiet = Array.from({ length: 30 }, (_, index) => (index % 2 === 0 ? 0.5 : -0.5));

  it("rule 1: beyond three standard deviations", () => expect(rowsOf(signals([...quiet, 12, ...quiet], "1"), "1")).toEqual([31]));

  it("rule 2: nine on one side, from the ninth on", () => {
    const run = [1, -1, 1, -1, 1, -1, -3, 2, 2, 3, 2, 3, 2, 3, 2, 3, 2, -8, -7, -9];
    expect(rowsOf(signals(run, "2"), "2")).toEqual([16, 17]);
  });

  it("rule 3: six rising or falling", () => {
    expect(rowsOf(signals([5, 1, 2, 3, 4, 5, 6, 3, 3, 2, 1, 0, -1, -2, 4], "3"), "3")).toEqual([7, 14]);
    expect(rowsOf(signals([1, 2, 3, 3, 4, 5, 6, 7], "3"), "3")).toEqual([]);
  });

  it("rule 4: fourteen up and down in turn", () => expect(rowsOf(signals([0, 0, ...quiet.slice(0, 14), -0.5], "4"), "4")).toEqual([15, 16]));

  it("rules 5 and 6: two of three beyond two, four of five beyond one, on one side", () => {
    // Mean 0; the quiet part keeps the mean moving range near 1, so one standard deviation is about 1.1.
    const values = [...quiet, 2.8, 0, 2.8, ...quiet, -2.8, -0.1, -2.8, ...quiet];
    expect(rowsOf(signals(values, "5"), "5")).toEqual([33, 66]);
    const shifted = [...quiet, 1.8, 1.9, 0.2, 1.8, 1.9, ...quiet, -1.8, -1.9, -0.2, -1.8, -1.9, ...quiet];
    expect(rowsOf(signals(shifted, "6"), "6")).toEqual([35, 70]);
  });

  it("rules 7 and 8: fifteen close to the centre, eight away from it on both sides", () => {
    const calm = Array.from({ length: 16 }, (_, index) => (index % 2 === 0 ? 0.1 : -0.1));
    const wild = [5, -5, 5, 5, -5, -5, 5, -5];
    const words = signals([...wild, ...calm], "7 8");
    expect(rowsOf(words, "8")).toEqual([8]);
    expect(rowsOf(words, "7")).toEqual([23, 24]);
  });

  it("keep the rows of blanks and name every rule a value completes", () => {
    const values = [0.4, -0.4, null, ...quiet, null, 20];
    const words = signals(values, "1,2,5");
    expect(words).toHaveLength(values.length);
    expect(words[2]).toBe("");
    expect(words.at(-1)).toBe("1");
    expect(signals([1, 2, 3, 4, 5, 6, 7, 8, 100], "1;3").at(-1)).toBe("1,3");
  });

  it("are none where nothing varies", () => expect(signals(Array<number>(40).fill(3), "1,2,3,4,5,6,7,8").join("")).toBe(""));
  it("refuse a rule that is none", () => expect(refusal(() => signals([1, 2], "1,9"))).toMatch(/rules must be numbers of Nelson's rules, 1 to 8.*“1,9”/));
});

describe("odd values", () => {
  // NIST/SEMATECH e-Handbook 1.3.5.17.1, mass spectrometer readings: G = 2.4687, one outlier.
  const spectrometer = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
  // NIST/SEMATECH e-Handbook 1.3.5.17.3, data of Rosner (1983): three outliers, 6.01, 5.42 and 5.34.
  const rosner = [
    -0.25, 0.68, 0.94, 1.15, 1.2, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49, 1.49, 1.55, 1.56, 1.58, 1.65, 1.69, 1.7,
    1.76, 1.77, 1.81, 1.91, 1.94, 1.96, 1.99, 2.06, 2.09,
    2.1, 2.14, 2.15, 2.23, 2.24, 2.26, 2.35, 2.37, 2.4, 2.47, 2.54, 2.62, 2.64, 2.9, 2.92, 2.92, 2.93, 3.21, 3.26, 3.3, 3.59, 3.68, 4.3, 4.64, 5.34, 5.42, 6.01,
  ];
  const odd = (values: (number | null)[], method?: string): (number | null)[] => {
    const found = logOdd({ values, method });
    return values.filter((_, row) => found[row] === true);
  };

  it("are the three of Rosner's data, of which the first two alone would not be found", () => expect(odd(rosner)).toEqual([5.34, 5.42, 6.01]));
  it("is the one of the handbook's readings, by Grubbs", () => expect(odd(spectrometer, "grubbs")).toEqual([245.57]));
  it("is the same one by the modified z, 29.96", () => expect(odd(spectrometer, "median")).toEqual([245.57]));

  it("follow Grubbs' critical value for both sides, 2.1266 for eight values at 5 %", () => {
    // Seven values of 0 and ±1 and one at the end: its G passes the critical value between 4.5 and 4.6 standard units of this set.
    const g = (values: number[]): number => {
      const average = values.reduce((sum, it) => sum + it, 0) / values.length;
      const sd = Math.sqrt(values.reduce((sum, it) => sum + (it - average) ** 2, 0) / (values.length - 1));
      return Math.max(...values.map((it) => Math.abs(it - average))) / sd;
    };
    for (let end = 1; end < 10; end += 0.01) {
      const values = [-1, -1, 0, 0, 0, 1, 1, end];
      if (Math.abs(g(values) - 2.126645) < 1e-4) continue;
      expect(odd(values, "grubbs").length > 0, `end ${end}`).toBe(g(values) > 2.126645);
    }
  });

  it("keep rows and blanks", () => {
    expect(logOdd({ values: [null, ...spectrometer], method: "grubbs" })).toEqual(["", ...Array<boolean>(7).fill(false), true]);
  });

  it("say when a test has too little to go by", () => {
    expect(refusal(() => odd([1, 2, 3]))).toMatch(/needs 15 values or more, but there are 3/);
    expect(refusal(() => odd([1, 2], "grubbs"))).toMatch(/three values/);
    expect(refusal(() => odd([5, 5, 5, 5, 9], "median"))).toMatch(/More than half of the values are 5/);
    expect(refusal(() => odd([1, 2], "other"))).toMatch(/“esd”, “grubbs” or “median”/);
    expect(odd(Array<number>(20).fill(0.1))).toEqual([]);
    expect(odd([...Array<number>(20).fill(0.1), 5])).toEqual([5]);
  });

  it("find planted values among many and nothing more, to the significance", () => {
    const luck = chance(5);
    const values = Array.from({ length: 2000 }, () => luck.around(27, 2));
    for (let row = 0; row < 100; row += 10) values[row] = 270;
    expect(odd(values)).toEqual(Array<number>(10).fill(270));
  });
});

describe("capability", () => {
  it("is the NIST handbook's 1.0 and 0.6667 for limits 8 and 20, mean 16 and standard deviation 2", () => {
    // NIST/SEMATECH e-Handbook 6.1.6; three values with that mean and that standard deviation.
    const it = logCapability({ values: [14, null, 16, 18] })({ low: 8, high: 20 });
    expect(it).toEqual({ shots: 3, inside: 100, meanValue: 16, sdValue: 2, cp: 1, cpk: 2 / 3 });
  });

  it("counts the share inside, limits included", () => expect(logCapability({ values: [24, 25, 30, 31] })({ low: 25, high: 30 }).inside).toBe(50));

  it("gives what it can of one value or of equal ones", () => {
    const one = logCapability({ values: [27] })({ low: 25, high: 30 });
    expect([one.shots, one.inside, one.meanValue]).toEqual([1, 100, 27]);
    expect(one.sdValue).toBeInstanceOf(Problem);
    expect(logCapability({ values: [27, 27] })({ low: 25, high: 30 }).cp).toBeInstanceOf(Problem);
    expect(refusal(() => logCapability({ values: [27] })({ low: 30, high: 25 }))).toMatch(/low, 30, must be less than high, 25/);
    expect(refusal(() => logCapability({ values: [null] })({ low: 25, high: 30 }))).toBe("There are no values.");
  });
});

describe("summary", () => {
  it("has mean and standard deviation of each setting, in order, and counts shots without a setting", () => {
    const table = logSummary({
      settings: [10, 6, "6", null, 6, null, "coarse"],
      dose: [18, 18, 20, 18, 18, null, 18],
      beverage: [36, 36, 50, 36, null, null, 36],
      time: [25, 27, 29, 25, 28, null, null],
      strength: [10, 9, 8, null, null, null, null],
    });
    expect(table.map((it) => [it.anySetting, it.shots])).toEqual([[6, 3], [10, 1], ["coarse", 1], ["no setting", 1]]);
    const six = table[0]!;
    expect([six.meanRatio, six.meanTime, six.sdTime, six.meanStrength]).toEqual([2.25, 28, 1, 8.5]);
    // Extractions 18 and 20 %: mean 19, standard deviation √2; ratios 2 and 2.5.
    expect(six.meanExtraction).toBeCloseTo(19, 12);
    expect(six.sdExtraction).toBeCloseTo(Math.SQRT2, 12);
    expect(six.sdRatio).toBeCloseTo(0.5 / Math.SQRT2, 12);
    expect(table[1]!.sdTime).toBeInstanceOf(Problem);
    expect(table[2]!.meanTime).toBeInstanceOf(Problem);
  });

  it("keeps its digits where values are large and close, as NIST's NumAcc4 asks", () => {
    // NIST StRD NumAcc4: 10000000.2 and 10000000.1, 10000000.3 in turn, 1001 values; mean 10000000.2, standard deviation 0.1 exactly.
    const values = [10000000.2, ...Array.from({ length: 1000 }, (_, index) => (index % 2 === 0 ? 10000000.1 : 10000000.3))];
    const none = values.map(() => null);
    const row = logSummary({ settings: values.map(() => "all"), dose: none, beverage: none, time: values, strength: none })[0]!;
    expect(row.meanTime).toBeCloseTo(10000000.2, 7);
    // The values themselves are stored to 2e-9, which is 2e-8 of the spread.
    expect(row.sdTime).toBeCloseTo(0.1, 8);
  });

  it("is refused where there are no shots", () => {
    expect(refusal(() => logSummary({ settings: [1], dose: [null], beverage: [null], time: [null], strength: [null] }))).toBe("There are no shots.");
  });
});

describe("in a sheet", () => {
  it("LOG.CHECK knows the units of the workbook", () => {
    useUnits({ mass: "oz", time: "clock", percent: "cell" });
    try {
      const ounces = (grams: number): number => grams / 28.349523125;
      expect(call("LOG.CHECK", ounces(18), ounces(36), 27 / 86400, 0.095)).toBe("");
      expect(call("LOG.CHECK", 18, ounces(36), 27 / 86400, 0.095)).toMatch(/Dose 18 oz looks like grams where ounces are expected: 0\.634931 oz/);
      expect(call("LOG.CHECK", ounces(18), ounces(36), 27, 0.095)).toMatch(/seconds where clock cells are expected: 27 s/);
      expect(call("LOG.CHECK", ounces(18), ounces(36), 27 / 1440, 0.095)).toMatch(/0:27 typed as a clock time/);
      expect(call("LOG.CHECK", ounces(18), ounces(36), 27 / 86400, 9.5)).toMatch(/a number where percent cells are expected: 9\.5 %/);
    } finally {
      useUnits();
    }
  });

  it("LOG.CHECK keeps an error of another cell in its own row", () => {
    const error = new CellError("#DIV/0!");
    const words = grid("LOG.CHECK", [18, error, 36, null], [36, 36, 18, null], [27, 27, 27, null], [9.5, 9.5, 9.5, null]);
    expect(words).toEqual([[""], [error], [expect.stringMatching(/^Dose and beverage look swapped/)], [""]]);
  });

  it("LOG.SUMMARY has headings in the units of the workbook and gaps where a setting has too little", () => {
    const table = grid("LOG.SUMMARY", ["6", "6", 8], [18, 18, 18], [36, 36, null], [27, 28, 26], [9.5, null, null]);
    expect(table[0]![0]).toBe("Setting");
    expect(table[0]!.slice(2)).toEqual([
      "Ratio, mean", "Ratio, SD", "Time, mean, s", "Time, SD, s", "Strength, mean, %", "Strength, SD, %", "Extraction, mean, %", "Extraction, SD, %",
    ]);
    expect(table[2]!.slice(0, 2)).toEqual([8, 1]);
    expect(table[2]![2]).toBeInstanceOf(CellError);
  });
});
