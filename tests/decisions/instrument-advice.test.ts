import { describe, expect, it } from "vitest";
import { instrumentAdvice, type InstrumentsGiven } from "../../shared/decisions/instrument-advice.ts";
import { repeatability } from "../../shared/comparison/index.ts";
import { calibrate } from "../../shared/instruments.ts";
import { extractionUncertainty } from "../../shared/uncertainty.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { worded } from "../../src/sheet/wording.ts";

function said(given: Partial<InstrumentsGiven>, line: 0 | 1): string {
  const { branch, sentence } = instrumentAdvice({ readings: [], references: [], ...given })[line]!;
  return `${branch}: ${worded(sentence, defaultUnits)}`;
}

const high = { readings: [0.04, 5.1, 8.13, 10.22, 12.16], references: [0, 5, 8, 10, 12] };
const right = { readings: [0.02, 4.97, 5.06, 9.91, 10.08, 14.88], references: [0, 5, 5, 10, 10, 15] };

describe("whether a reading can be trusted", () => {
  it.each<{ why: string; given: Partial<InstrumentsGiven>; says: string }>([
    { why: "nothing", given: {}, says: "1: Read two known solutions, at least." },
    { why: "one known solution, and one half typed", given: { readings: [0, 5, null], references: [0, null, 10] }, says: "1: Read two known solutions, at least." },
    { why: "nothing to ask of", given: { readings: [0, 5], references: [0, 5] }, says: "2: Type a reading that you want to know more of." },
    { why: "beyond what is known", given: { ...high, reading: 14.2 }, says: "3: A reading of 14.20 % has no answer from known values of 0.00 to 12.00 %: read known values around it." },
    { why: "two known solutions", given: { readings: [0.1, 10.1], references: [0, 10], reading: 9.4 }, says: "4: 9.4 % is about 9.3 %. Two readings always lie on a line, so there is no spread for an interval. Read a third known value." },
    { why: "all known alike", given: { readings: [5, 5.1], references: [5, 5], reading: 5 }, says: "7: All references are 5. Read at least two known values that differ." },
    { why: "inside its interval", given: { ...right, reading: 9.4 }, says: "5: 9.40 % may stand (9.20 to 9.66 %, 19 in 20)." },
    { why: "outside it, high", given: { ...high, reading: 9.4 }, says: "6: It reads 0.16 % too high: take 9.24 %." },
    { why: "outside it, low", given: { readings: high.references.map((it, row) => it - (high.readings[row]! - it)), references: high.references, reading: 9.4 }, says: "6: It reads 0.16 % too low: take 9.56 %." },
  ])("$why", ({ given, says }) => expect(said(given, 0)).toBe(says));

  it("has the numbers of CALIBRATE", () => {
    const { trueValue, low, high: upper } = calibrate({ readings: high.readings, references: high.references })({ reading: 9.4 });
    expect(trueValue).toBeCloseTo(9.24, 2);
    expect(upper as number).toBeLessThan(9.4);
    expect(low as number).toBeLessThan(trueValue);
  });
});

describe("what half a point is worth", () => {
  const shot = { reading: 9.4, dose: 18, beverage: 36 };
  const steady = [9.41, 9.45, 9.38, 9.47, 9.43, 9.5];
  const people = ["A", "A", "A", "B", "B", "B"];
  const loose = [9.3, 9.5, 9.7];
  it.each<{ why: string; given: Partial<InstrumentsGiven>; says: string }>([
    { why: "no repeats", given: shot, says: "1: Read one cup three times or more to see what half a point of extraction is worth." },
    { why: "one reading a person", given: { ...shot, repeats: [9.4, 9.5, 9.6], operators: ["A", "B", "C"] }, says: "1: Read one cup three times or more to see what half a point of extraction is worth." },
    { why: "readings all alike", given: { ...shot, repeats: [9.4, 9.4, 9.4] }, says: "3: The readings of one cup are all alike: read it with one more decimal." },
    { why: "no dose", given: { reading: 9.4, beverage: 36, repeats: steady }, says: "2: Type dose, beverage and a reading to see what half a point of extraction is worth." },
    { why: "steady readings of two people", given: { ...shot, repeats: steady, operators: people }, says: "4: Half a point of extraction is more than the instruments’ own doubt (± 0.27 %, 19 in 20)." },
    { why: "readings that scatter", given: { ...shot, repeats: loose }, says: "5: Half a point of extraction may be the instruments alone (± 0.83 %): take the mean of 4 readings of each shot." },
    { why: "a coarse scale", given: { ...shot, repeats: steady, scaleError: 0.5 }, says: "6: Half a point of extraction may be the instruments alone (± 1.18 %), and reading more often does not mend it: weigh more finely." },
  ])("$why", ({ given, says }) => expect(said(given, 1)).toBe(says));

  it("has the spread of REPEATABILITY and the doubt of EXTRACTION.UNCERTAINTY", () => {
    const { repeatabilitySd } = repeatability({ values: steady, operators: people });
    expect(extractionUncertainty({ dose: 18, beverage: 36, strength: 9.4, strengthError: repeatabilitySd })).toBeCloseTo(0.27, 2);
  });

  it("asks for no more readings than it takes", () => {
    const doubt = (count: number) => extractionUncertainty({ dose: 18, beverage: 36, strength: 9.4, strengthError: 0.2 / Math.sqrt(count) });
    expect([doubt(3) < 0.5, doubt(4) < 0.5]).toEqual([false, true]);
  });
});
