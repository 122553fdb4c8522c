import { describe, expect, it } from "vitest";
import { capitalised, counted, decimalsOf, listed, once, resultWords, settingWords, together } from "../../shared/decisions/sentences.ts";
import { amount, difference, range, rounded, words } from "../../shared/words.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { worded } from "../../src/sheet/wording.ts";

describe("how rare a p-value is", () => {
  it.each([
    [0.05, "about once in 20 trials"],
    [0.0499, "about once in 20 trials"],
    [0.0401, "about once in 20 trials"],
    [0.04, "about once in 25 trials"],
    [0.02, "about once in 50 trials"],
    [0.0101, "about once in 70 trials"],
    [0.01, "about once in 100 trials"],
    [0.0011, "about once in 500 trials"],
    [0.001, "about once in 1,000 trials"],
    [0.00099, "less than once in 1,000 trials"],
    [0, "less than once in 1,000 trials"],
    [0.1, "about once in 10 trials"],
    [0.4, "about once in 2 trials"],
    [0.7, "more often than not"],
  ])("p %d: %s", (p, said) => {
    expect(once(p)).toBe(said);
  });

  it("is never made out to be rarer than it is", () => {
    for (let p = 0.001; p <= 0.5; p *= 1.01) {
      const odds = Number(/in ([\d,]+) trials/.exec(once(p))![1]!.replace(",", ""));
      expect(odds * p).toBeLessThanOrEqual(1 + 1e-6);
      expect(odds * p).toBeGreaterThan(0.5);
    }
  });
});

describe("settings", () => {
  it("keep the decimals that were typed, and worked out ones have one more", () => {
    const grind = settingWords([2.3, 2.25, 2.5]);
    expect([grind.one(2.3), grind.several([2.5, 2.3], "or"), grind.found(2.4), grind.span(2.1, 2.3456)]).toEqual(["2.30", "2.30 or 2.50", "2.400", "2.100 to 2.346"]);
    const heat = settingWords([88, 91, 93], "°C");
    expect([heat.one(93), heat.several([93, 88, 91], "and"), heat.found(92.56)]).toEqual(["93 °C", "88, 91 and 93 °C", "92.6 °C"]);
    expect([heat.proposed(92, 94), heat.proposed(92.5), grind.proposed(2.4)]).toEqual(["92 and 94 °C", "92.5 °C", "2.40"]);
  });

  it("with names have no unit", () => {
    const names = settingWords(["Fine ", "Coarse", 3], "°C");
    expect(names.one("Fine ")).toBe("Fine");
    expect(names.several(["Fine ", "Coarse"], "or")).toBe("Coarse or Fine");
    expect(names.several([3, "Fine"], "or")).toBe("3 °C or Fine");
  });

  it.each([[[93, 90], 0], [[0.1 + 0.2], 1], [[2.25, 2.3], 2], [[1 / 3], 6], [[], 0], [[-2.5], 1]])("%j has %i decimals", (values, decimals) => {
    expect(decimalsOf(values)).toBe(decimals);
  });
});

describe("amounts", () => {
  it("of results are rounded to what is known of them, but never to nothing", () => {
    const taste = resultWords("points", 0.41, 0.62, 0.21);
    expect([taste.one(0.6234), taste.span(0.2134, 1.0334)]).toEqual(["0.6 points", "0.2 to 1.0"]);
    const close = resultWords("points", 0.61, 0.62, 0.012);
    expect(close.span(0.012, 1.228)).toBe("0.01 to 1.23");
    expect(resultWords("", 12.3, 27.4, 15.1).one(27.4)).toBe("27");
    expect(resultWords("%", 0.2, 0.3).one(-0.04)).toBe("0.0 %");
  });

  it("with a step are said as closely in every unit", () => {
    const imperial = { ...defaultUnits, mass: "oz", temperature: "F" } as const;
    const said = words`${rounded(difference("dose", 0.61), 0.1)} heavy at ${rounded(range("temperature", 92, 93.26), 0.1)}, ${amount("time", 27.53)}`;
    expect(worded(said, defaultUnits)).toBe("0.6 g heavy at 92.0 to 93.3 °C, 27.53 s");
    expect(worded(said, imperial)).toBe("0.022 oz heavy at 197.6 to 199.9 °F, 27.53 s");
  });
});

it("lists, counts and joins", () => {
  expect([listed(["a"], "or"), listed(["a", "b"], "or"), listed(["a", "b", "c"], "and"), listed([], "or")]).toEqual(["a", "a or b", "a, b and c", ""]);
  expect([counted(1, "shot"), counted(8, "shot"), counted(2, "penny", "pence")]).toEqual(["1 shot", "8 shots", "2 pence"]);
  expect(together("One.", "", "Two.")).toBe("One. Two.");
  expect(worded(together("", words`${amount("time", 3)}.`, "Two."), defaultUnits)).toBe("3 s. Two.");
  expect(capitalised("more extraction")).toBe("More extraction");
});
