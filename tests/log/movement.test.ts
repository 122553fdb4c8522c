import { describe, expect, it } from "vitest";
import { movementOf, type Stretch } from "../../shared/log/movement.ts";
import { chance } from "../simulated-log.ts";

const luck = chance(8);
const noisy = (n: number, level: (shot: number) => number, spread = 1): number[] =>
  Array.from({ length: n }, (_, shot) => level(shot) + luck.around(0, spread));

describe("where a log moved", () => {
  it("is the stretch that lies on another level", () => {
    const what = movementOf(noisy(60, (shot) => (shot >= 20 && shot < 32 ? 33 : 28))).what as Stretch;
    expect([what.kind, what.from, what.to]).toEqual(["stretch", 20, 32]);
    expect(Math.abs(what.level - 33)).toBeLessThan(4 * what.error);
    expect(Math.abs(what.otherLevel - 28)).toBeLessThan(4 * what.error);
  });

  it("is the rest of the log where the stretch begins with the first shot", () => {
    const what = movementOf(noisy(30, (shot) => (shot < 8 ? 33 : 28))).what as Stretch;
    expect([what.from, what.to]).toEqual([8, 30]);
  });

  it("is a drift where a line fits better, with its change a shot", () => {
    const { what, residuals } = movementOf(noisy(60, (shot) => 25 + 0.2 * shot));
    expect(what.kind).toBe("drift");
    if (what.kind === "drift") expect(Math.abs(what.slope - 0.2)).toBeLessThan(4 * what.error);
    expect(Math.abs(residuals.reduce((sum, it) => sum + it, 0))).toBeLessThan(1e-9);
  });

  it("is never one shot alone", () => {
    const what = movementOf(noisy(30, (shot) => (shot === 29 ? 60 : 28))).what as Stretch;
    expect(what.to - what.from).toBeGreaterThan(1);
  });

  it("is found to the shot in a log too long to try every stretch", () => {
    const what = movementOf(noisy(9000, (shot) => (shot >= 3333 && shot < 4711 ? 40 : 28))).what as Stretch;
    expect([what.from, what.to]).toEqual([3333, 4711]);
  });

  it("agrees with trying every stretch", () => {
    for (let round = 0; round < 50; round++) {
      const values = noisy(14, () => 27, 2);
      const centre = values.reduce((sum, it) => sum + it, 0) / 14;
      let best = { gain: -1, key: "" };
      for (let from = 1; from < 14; from++) {
        for (let to = from + 2; to <= 14 && to - from <= 12; to++) {
          const inside = values.slice(from, to);
          const mean = inside.reduce((sum, it) => sum + it, 0) / inside.length;
          const rest = (14 * centre - inside.length * mean) / (14 - inside.length);
          const gain = inside.length * (mean - centre) ** 2 + (14 - inside.length) * (rest - centre) ** 2;
          if (gain > best.gain) best = { gain, key: `${from} ${to}` };
        }
      }
      const { what } = movementOf(values);
      if (what.kind === "stretch") expect(`${what.from} ${what.to}`).toBe(best.key);
    }
  });
});
