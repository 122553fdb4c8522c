/** How often the scores of several tasters raise a false alarm, each shot tasted by all of them. */
import { compareTest } from "../../shared/comparison/index.ts";
import { tasteAlike } from "../../shared/tasting/discrimination.ts";
import { tasteScores, tasteScoresTest } from "../../shared/tasting/scores.ts";
import { luckOf, type Luck } from "./luck.ts";
import { rateOf, type Rate } from "./rate.ts";

const rounds = 5000;

interface Scored {
  readonly tasters: number[];
  readonly samples: number[];
  readonly scores: number[];
}

/** Samples that do not differ, in the eyes of tasters who use the scale differently, see each sample a little differently, and are not sure of it. */
function panel(luck: Luck, tasters: number, samples: number, tastings: number, gaps: number): Scored {
  const scored: Scored = { tasters: [], samples: [], scores: [] };
  for (let taster = 0; taster < tasters; taster++) {
    const level = luck.around(6, 1.5);
    for (let sample = 0; sample < samples; sample++) {
      const own = level + luck.around(0, 0.6);
      const missed = luck.even() < gaps;
      for (let tasting = 0; tasting < tastings; tasting++) {
        const score = own + luck.around(0, 0.8);
        if (missed) continue;
        scored.tasters.push(taster);
        scored.samples.push(sample);
        scored.scores.push(score);
      }
    }
  }
  return scored;
}

export function tasterRates(): Rate[] {
  const luck = luckOf(2);
  const rates: Rate[] = [];
  for (const [tasters, samples, tastings] of [[4, 3, 1], [4, 3, 3], [6, 4, 1], [8, 6, 2], [12, 3, 2]] as const) {
    const what = `${tasters} tasters, ${samples} samples alike, ${tastings} ${tastings === 1 ? "tasting" : "tastings"} each`;
    rates.push(
      { what: `${what}: p of TASTE.SCORESTEST below .05`, rate: rateOf(rounds, () => tasteScoresTest(panel(luck, tasters, samples, tastings, 0)).p < 0.05), aim: "4 to 6 %" },
      {
        what: `${what}: letters of TASTE.SCORES that differ`, aim: "4 to 6 %",
        rate: rateOf(rounds / 5, () => {
          const letters = tasteScores(panel(luck, tasters, samples, tastings, 0)).map(({ group }) => group as string);
          return letters.some((one) => letters.some((other) => ![...one].some((letter) => other.includes(letter))));
        }),
      },
    );
  }
  rates.push({
    what: "8 tasters, 4 samples alike, one score in ten missing: p below .05", aim: "4 to 6 %",
    rate: rateOf(rounds, () => tasteScoresTest(panel(luck, 8, 4, 1, 0.1)).p < 0.05),
  });
  // Three settings alike, four shots of each that scatter, four tasters at every shot.
  const poured = (): Scored => {
    const scored: Scored = { tasters: [], samples: [], scores: [] };
    const levels = [0, 1, 2, 3].map(() => luck.around(6, 0.4));
    for (let shot = 0; shot < 12; shot++) {
      const cup = luck.around(0, 0.6);
      for (const [taster, level] of levels.entries()) {
        scored.tasters.push(taster);
        scored.samples.push(shot % 3);
        scored.scores.push(level + cup + luck.around(0, 0.8));
      }
    }
    return scored;
  };
  rates.push({
    what: "3 settings alike × 4 shots × 4 tasters, every score entered as a shot: COMPARE.TEST, for comparison",
    rate: rateOf(rounds, () => {
      const { samples, scores } = poured();
      return compareTest({ settings: samples, results: scores })({}).p < 0.05;
    }),
  }, {
    what: "the same by TASTE.SCORESTEST, which speaks for these pulls only, for comparison",
    rate: rateOf(rounds, () => tasteScoresTest(poured()).p < 0.05),
  });
  for (const tasters of [25, 45, 64]) {
    rates.push({
      what: `${tasters} tasters, of whom 20 % tell the difference: alike by TASTE.ALIKE`, aim: "at most 5 %",
      rate: rateOf(rounds, () => {
        let correct = 0;
        for (let taster = 0; taster < tasters; taster++) if (luck.even() < 1 / 3 + 0.2 * (2 / 3)) correct++;
        return tasteAlike({ correct, tasters, test: "triangle" }).alike;
      }),
    });
  }
  return rates;
}
