import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { shotProfile as prepared, type ShotLog, type ShotProfile } from "../shared/profile.ts";
import { problemOf } from "./problem-of.ts";

const shotProfile = ({ beverage, ...log }: ShotLog & { beverage?: number }): ShotProfile => prepared(log)({ beverage });

/**
 * A made shot of straight pieces: 3 bar until 6 s, to 9 bar until 8 s; dripping from 7 s at 1 g/s until 10 s, then at 2 g/s until 26 s; 9 bar
 * until 26 s, then none. Mass 0.2 g is passed at 7.2 s, 34.8 g (0.2 g short of the end) at 25.9 s.
 */
const massAt = (time: number): number => (time < 7 ? 0 : time < 10 ? time - 7 : time < 26 ? 3 + 2 * (time - 10) : 35);
const pressureAt = (time: number): number => (time < 6 ? 3 : time < 8 ? 3 + 3 * (time - 6) : time <= 26 ? 9 : 0);

/** Read at this step and at the corners, so that straight lines between the readings are the shot itself. */
function logged(step: number, until = 30): { times: number[]; masses: number[]; pressures: number[] } {
  const corners = [6, 7, 8, 10, 26, 26.000001];
  const times = [...new Set([...Array.from({ length: Math.round(until / step) + 1 }, (_, index) => index * step), ...corners])].sort((a, b) => a - b);
  return { times, masses: times.map(massAt), pressures: times.map(pressureAt) };
}

describe("a shot of straight pieces", () => {
  it.each([0.1, 0.25, 0.5])("read every %d s", (step) => {
    const profile = shotProfile({ ...logged(step), beverage: 33 });
    expect(profile.firstDrip).toBeCloseTo(7.2, 9);
    expect(profile.beverageTime).toBeCloseTo(25, 9);
    expect(profile.meanFlow).toBeCloseTo((33 - 0.2) / (25 - 7.2), 9);
    expect(profile.greatestFlow).toBeCloseTo(2, 9);
    expect(profile.meanPressure).toBeCloseTo(((6.6 + 9) / 2 * 0.8 + 9 * 17.9) / 18.7, 6);
    expect(profile.greatestPressure).toBe(9);
    expect(profile.pressureBefore).toBeCloseTo((3 * 6 + ((3 + 6.6) / 2) * 1.2) / 7.2, 6);
  });

  it("without a beverage flows from the first drop to the last", () => {
    const { beverageTime, meanFlow } = shotProfile(logged(0.1));
    expect(beverageTime).toBe("");
    expect(meanFlow).toBeCloseTo((34.8 - 0.2) / (25.9 - 7.2), 9);
  });

  it("that does not reach the beverage says nothing of its time", () => {
    expect(shotProfile({ ...logged(0.1), beverage: 36 }).beverageTime).toBe("");
  });

  it("without pressures has none", () => {
    const { times, masses } = logged(0.1);
    const profile = shotProfile({ times, masses });
    expect([profile.meanPressure, profile.greatestPressure, profile.pressureBefore]).toEqual(["", "", ""]);
  });
});

describe("what a real log does", () => {
  const { times, masses, pressures } = logged(0.1);
  const clean = shotProfile({ times, masses, pressures, beverage: 33 });

  it("one knock of the scale changes nothing", () => {
    for (const knocked of [20, 75, 150]) {
      const profile = shotProfile({ times, masses: masses.map((mass, index) => (index === knocked ? mass + 12 : mass)), pressures, beverage: 33 });
      for (const [name, value] of Object.entries(profile)) expect(value, name).toBeCloseTo(clean[name as keyof typeof clean] as number, 9);
    }
  });

  it("a cup that is taken away at the end changes nothing", () => {
    const longer = [...times, 30.1, 30.2, 30.3, 31];
    const lifted = [...masses, 31, -118, -120, -120];
    const profile = shotProfile({ times: longer, masses: lifted, pressures: [...pressures, 0, 0, 0, 0], beverage: 33 });
    expect(profile.firstDrip).toBeCloseTo(clean.firstDrip, 9);
    expect(profile.beverageTime).toBeCloseTo(clean.beverageTime as number, 9);
    expect(profile.greatestFlow).toBeCloseTo(2, 9);
  });

  it("a cup put on the scale and tared before the shot is no drop", () => {
    const placed = masses.map((mass, index) => (index > 10 && index < 30 ? 210 : mass));
    expect(shotProfile({ times, masses: placed, beverage: 33 }).firstDrip).toBeCloseTo(7.2, 9);
  });

  it("blanks are left out, and of several readings at one time the last counts", () => {
    const thinned = masses.map((mass, index) => (index % 3 === 1 && massAt(times[index]!) > 3 ? null : mass));
    expect(shotProfile({ times: [...times, null], masses: [...thinned, 99], beverage: 33 }).beverageTime).toBeCloseTo(25, 9);
    expect(shotProfile({ times: [0, 1, 1, 2], masses: [0, 9, 0, 1] }).firstDrip).toBeCloseTo(1.2, 9);
  });

  it("a shot that drips for less than a second has no flow over a second", () => {
    expect(shotProfile({ times: [0, 0.5, 1], masses: [0, 0, 3] }).greatestFlow).toBe("");
  });

  it.each([
    ["nothing dripped", { times: [0, 1, 2], masses: [0, 0.1, 0.2] }, "nothing dripped"],
    ["no mass was read", { times: [0, 1, 2], masses: [null, null, null] }, "nothing dripped"],
    ["the log begins too late", { times: [0, 1, 2], masses: [1, 2, 3] }, "The log begins with 1 g on the scale"],
    ["two shots follow one another", { times: [0, 1, 2, 0, 1], masses: [0, 2, 4, 0, 3] }, "times, entry 4, 0 s, comes after 2 s"],
  ] satisfies [string, ShotLog, string][])("refuses in words where %s", (_, log, why) => {
    expect(problemOf(() => shotProfile(log)).message).toContain(why);
  });
});

it("the greatest flow over a second is at least the mean flow, and what a slow search finds", () => {
  fc.assert(fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 30, maxLength: 80 }), (rises) => {
    let mass = 0;
    const masses = [0, 0, ...rises.map((rise) => (mass += 0.05 + rise))];
    const times = masses.map((_, index) => index / 5);
    const profile = shotProfile({ times, masses });
    const at = (time: number): number => {
      const left = Math.min(masses.length - 2, Math.floor(time * 5));
      return masses[left]! + (masses[left + 1]! - masses[left]!) * (time * 5 - left);
    };
    let most = 0;
    for (let begin = profile.firstDrip; begin + 1 <= times[times.length - 1]!; begin += 0.01) most = Math.max(most, at(begin + 1) - at(begin));
    // The slow search steps by 0.01 s, in which no mass here changes by more than 0.053 g.
    expect(profile.greatestFlow as number).toBeGreaterThanOrEqual(most - 1e-9);
    expect(profile.greatestFlow as number).toBeLessThanOrEqual(most + 0.11);
    expect(profile.greatestFlow as number).toBeGreaterThanOrEqual((profile.meanFlow as number) * 0.8);
  }), { numRuns: 40 });
});
