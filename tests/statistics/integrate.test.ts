import { describe, expect, it } from "vitest";
import { integrate } from "../../shared/statistics/integrate.ts";

describe("integrate", () => {
  it.each([["sin x", Math.sin, 0, Math.PI, 2], ["exp x", Math.exp, 0, 1, Math.E - 1], ["1 / (1 + x²)", (x: number) => 1 / (1 + x * x), 0, 1, Math.PI / 4]])(
    "gives %s to 1e-14", (_, f, from, to, exact) => expect(Math.abs(integrate(f, from, to) - exact)).toBeLessThan(1e-14));
});
