import { describe, expect, it } from "vitest";
import { tasteCodes, tasteOrder } from "../../shared/tasting/serving.ts";
import { grid } from "../worksheet.ts";

describe("tasteOrder", () => {
  it.each(Array.from({ length: 25 }, (_, index) => index + 2))("of %d samples balances places and neighbours", (samples) => {
    const tasters = samples % 2 === 0 ? samples : 2 * samples;
    const orders = tasteOrder({ samples, tasters, seed: samples }).map((it) => it.serving);
    const places = new Map<string, number>();
    const neighbours = new Map<string, number>();
    const add = (counts: Map<string, number>, key: string): void => void counts.set(key, (counts.get(key) ?? 0) + 1);
    for (const order of orders) {
      order.forEach((sample, place) => {
        add(places, `${sample} at ${place}`);
        if (place > 0) add(neighbours, `${order[place - 1]} before ${sample}`);
      });
    }
    const sets = tasters / samples;
    expect(places.size).toBe(samples ** 2);
    expect(new Set(places.values())).toEqual(new Set([sets]));
    expect(neighbours.size).toBe(samples * (samples - 1));
    expect(new Set(neighbours.values())).toEqual(new Set([sets]));
  });

  it("balances the places already for one square of an odd number", () => {
    const orders = tasteOrder({ samples: 5, tasters: 5 }).map((it) => it.serving);
    for (let place = 0; place < 5; place++) expect(orders.map((order) => order[place]).sort()).toEqual([1, 2, 3, 4, 5]);
  });

  it("is the same for the same seed for ever, and another for another", () => {
    expect(tasteOrder({ samples: 4, tasters: 4, seed: 7 }).map((it) => it.serving)).toEqual([[4, 1, 2, 3], [2, 4, 3, 1], [3, 2, 1, 4], [1, 3, 4, 2]]);
    expect(tasteOrder({ samples: 4, tasters: 4, seed: 8 })).not.toEqual(tasteOrder({ samples: 4, tasters: 4, seed: 7 }));
  });

  it("spills a heading and a column for each serving", () => {
    const table = grid("TASTE.ORDER", 3, 6);
    expect(table[0]).toEqual(["Taster", "Serving 1", "Serving 2", "Serving 3"]);
    expect(table.length).toBe(7);
  });
});

describe("tasteCodes", () => {
  it("are different, of three digits, the same for the same seed for ever", () => {
    const all = tasteCodes({ count: 900 });
    expect(new Set(all).size).toBe(900);
    expect(Math.min(...all)).toBe(100);
    expect(Math.max(...all)).toBe(999);
    expect(tasteCodes({ count: 5, seed: 2 })).toEqual([516, 169, 580, 896, 521]);
  });
});
