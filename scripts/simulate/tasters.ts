/** How often the scores of several tasters raise a false alarm. */
import { compareTest } from "../../shared/comparison/index.ts";
import { tasteAlike } from "../../shared/tasting/discrimination.ts";
import { tasteScores, tasteScoresTest } from "../../shared/tasting/scores.ts";
import type { Draw, Simulation } from "./simulation.ts";

type Scored = Record<"tasters" | "samples" | "scores", number[]>;

interface Panel {
  readonly tasters: number;
  readonly samples: number;
  readonly cups: number;
  /** Spread of the tasters' levels, and of how each sees each sample, over that of a single score. */
  readonly level?: number;
  readonly view?: number;
  /** Part of the tasters' samples that were missed. */
  readonly gaps?: number;
}

/** Every taster scores every cup of every sample; the samples are alike. */
function panel(draw: Draw, { tasters, samples, cups, level = 2, view = 1, gaps = 0 }: Panel): Scored {
  const scored: Scored = { tasters: [], samples: [], scores: [] };
  for (let taster = 0; taster < tasters; taster++) {
    const own = level * draw.normal();
    for (let sample = 0; sample < samples; sample++) {
      const seen = own + view * draw.normal();
      if (draw.even() < gaps) continue;
      for (let cup = 0; cup < cups; cup++) {
        scored.tasters.push(taster);
        scored.samples.push(sample);
        scored.scores.push(seen + draw.normal());
      }
    }
  }
  return scored;
}

/** Three settings alike, four shots of each that scatter, four tasters at every shot. */
function poured({ normal }: Draw): Scored {
  const scored: Scored = { tasters: [], samples: [], scores: [] };
  const levels = [0, 1, 2, 3].map(() => 0.5 * normal());
  for (let shot = 0; shot < 12; shot++) {
    const cup = 0.75 * normal();
    for (const [taster, level] of levels.entries()) {
      scored.tasters.push(taster);
      scored.samples.push(shot % 3);
      scored.scores.push(level + cup + normal());
    }
  }
  return scored;
}

const nominal = [0.04, 0.06] as const;
const asShots = ({ samples, scores }: Scored): boolean => compareTest({ settings: samples, results: scores })({}).p < 0.05;

function anyLettersApart(scored: Scored): boolean {
  const letters = tasteScores(scored).map(({ group }) => group as string);
  return letters.some((one) => letters.some((other) => ![...one].some((letter) => other.includes(letter))));
}

const panels: readonly Panel[] = [
  { tasters: 4, samples: 4, cups: 3, level: 0, view: 0 },
  { tasters: 4, samples: 4, cups: 3, level: 2, view: 0 },
  { tasters: 4, samples: 4, cups: 3 },
  { tasters: 4, samples: 3, cups: 1 },
  { tasters: 8, samples: 6, cups: 2 },
];

export const tasters: readonly Simulation[] = [
  ...panels.map((it): Simulation => ({
    topic: "Tasters as blocks", what: `${it.tasters} tasters × ${it.samples} samples × ${it.cups} cups, level ${it.level ?? 2}, views ${it.view ?? 1} SD`, aim: nominal,
    event: (draw) => tasteScoresTest(panel(draw, it)).p < 0.05,
  })),
  {
    topic: "Tasters as blocks", what: "6 tasters × 4 samples × 2 cups: letters that differ", aim: nominal,
    event: (draw) => anyLettersApart(panel(draw, { tasters: 6, samples: 4, cups: 2 })),
  },
  {
    topic: "Tasters as blocks", what: "8 tasters × 4 samples, one in ten missed", aim: nominal,
    event: (draw) => tasteScoresTest(panel(draw, { tasters: 8, samples: 4, cups: 1, gaps: 0.1 })).p < 0.05,
  },
  { topic: "Tasters as blocks", what: "48 scores taken as shots, views 1 SD", event: (draw) => asShots(panel(draw, { tasters: 4, samples: 4, cups: 3, level: 0 })) },
  { topic: "Four tasters at each of 3 × 4 shots that scatter", what: "scores taken as shots", event: (draw) => asShots(poured(draw)) },
  { topic: "Four tasters at each of 3 × 4 shots that scatter", what: "tasters as blocks, which speak for these pulls", event: (draw) => tasteScoresTest(poured(draw)).p < 0.05 },
  ...[25, 45, 64].map((count): Simulation => ({
    topic: "Samples that one in five tells apart", what: `triangle of ${count} tasters: may be treated alike`, aim: [0, 0.05],
    event: (draw) => {
      const correct = Array.from({ length: count }, () => draw.even() < 1 / 3 + 0.2 * (2 / 3)).filter(Boolean).length;
      return tasteAlike({ correct, tasters: count, test: "triangle" }).alike;
    },
  })),
];
