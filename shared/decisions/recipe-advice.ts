/**
 * A recipe in three sentences: what to weigh and how long it takes, the same in another basket with where to begin there, and what a cup costs.
 * A grind is told only from shots of that basket; without any, which way to begin is all that the depth of its puck can say.
 */
import { amount, printedTo, range, rounded, words, type Amount, type Words } from "../words";
import { grindAdvice } from "./grind-advice";
import { counted, decimalsOf, together, type Advice, type TopicAdvice } from "./sentences";

export interface RecipeGiven {
  /** g */
  readonly dose?: number;
  readonly beverage?: number;
  /** s */
  readonly time?: number;
  readonly tolerance?: number;
  /** g of dose in the other basket, and the inner diameters of both, mm. */
  readonly otherDose?: number;
  readonly diameter?: number;
  readonly otherDiameter?: number;
  /** Settings and times of shots in the other basket. */
  readonly settings?: readonly (number | null)[];
  readonly times?: readonly (number | null)[];
  /** g of coffee in a bag, its price in a currency, and the part that is lost, %. */
  readonly bag?: number;
  readonly price?: number;
  readonly currency?: string;
  readonly wasted?: number;
}

/** A puck that is deeper by less than this part is as deep: common practice of the trade doses to about 2 %. */
const alikeDepth = 0.02;

export function recipeAdvice(given: RecipeGiven): TopicAdvice[] {
  return [{ topic: "recipe", ...recipeOf(given) }, { topic: "other basket", ...otherBasketOf(given) }, { topic: "cost", ...costOf(given) }];
}

const nothing: Advice = { branch: 0, sentence: "" };

function mass(quantity: "dose" | "beverage", value: number): Amount {
  return rounded(amount(quantity, value), 0.1);
}

function recipeOf({ dose, beverage, time, tolerance = 0 }: RecipeGiven): Advice {
  if (dose === undefined || beverage === undefined) return { branch: 1, sentence: "Type dose and beverage." };
  const weighed = words`${mass("dose", dose)} in, ${mass("beverage", beverage)} out`;
  if (time === undefined) return { branch: 2, sentence: words`${weighed}.` };
  const step = decimalsOf([time, tolerance]) === 0 ? 1 : 0.1;
  const span = tolerance > 0 ? range("time", Math.max(0, time - tolerance), time + tolerance) : amount("time", time);
  return { branch: 3, sentence: words`${weighed}, ${rounded(span, step)}.` };
}

function otherBasketOf({ dose, beverage, time, tolerance, otherDose, diameter, otherDiameter, settings = [], times = [] }: RecipeGiven): Advice {
  if (dose === undefined || beverage === undefined || otherDose === undefined) return nothing;
  const weighed = words`Other basket: ${mass("dose", otherDose)} in, ${mass("beverage", (otherDose * beverage) / dose)} out.`;
  const then = (branch: number, grind: Words): Advice => ({ branch, sentence: together(weighed, grind) });
  const pulled = times.flatMap((it, row) => {
    const setting = settings[row] ?? null;
    return it === null || setting === null ? [] : [{ setting, time: it }];
  });
  if (pulled.length > 0) {
    const log = { settings: pulled.map(({ setting }) => setting), times: pulled.map((shot) => shot.time) };
    const advice = grindAdvice({ setting: [], time: [], ...log })({ target: time, tolerance });
    return then(advice.branch, advice.sentence);
  }
  if (diameter === undefined || otherDiameter === undefined) return then(4, "For its grind type the inner diameters, or shots.");
  const deeper = otherDose / otherDiameter ** 2 / (dose / diameter ** 2);
  if (deeper > 1 + alikeDepth) return then(5, "A deeper puck: begin coarser, and type those shots.");
  if (deeper < 1 - alikeDepth) return then(6, "A shallower puck: begin finer, and type those shots.");
  return then(7, "A puck as deep: begin where you are, and type those shots.");
}

function costOf({ dose, bag, price, currency = "", wasted = 0 }: RecipeGiven): Advice {
  if (dose === undefined || bag === undefined) return nothing;
  const kept = bag * (1 - wasted / 100);
  // Rounding must not cost the last cup.
  const cups = Math.floor(kept / dose + 1e-6);
  const said = `${counted(cups, "cup")} a bag.`;
  if (price === undefined) return { branch: 1, sentence: said };
  const unit = currency.trim() === "" ? "" : ` ${currency.trim()}`;
  return { branch: 2, sentence: `${printedTo(0.01, (price * dose) / kept)}${unit} of coffee a cup, ${said}` };
}
