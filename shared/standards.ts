/** Published definitions of espresso and filter coffee, as they are printed. Conventions, not proofs of quality. */
import { noAnswer } from "./problem";
import { functionNamed, words } from "./words";

export interface StandardItem {
  readonly item: string;
  /** Blank where the definition has no lower limit. */
  readonly low: number | "";
  readonly high: number | "";
  readonly unit: string;
  readonly source: string;
}

const goldenCup = "Specialty Coffee Association of America, Golden Cup standard, 23 December 2015";
const italian = "Istituto Nazionale Espresso Italiano, certified Italian espresso; seen second-hand on three agreeing pages";
const quoted = "Specialty Coffee Association espresso, as quoted by Cameron et al. (2020), Matter 2:631";
const cafes = "Cafés of today, as given by Cameron et al. (2020), Matter 2:631";
const olderWater = "Specialty Coffee Association of America, standard for brewing water, on its own page until 2017";
const water = "Specialty Coffee Association, later standard for brewing water; seen second-hand on three agreeing pages";
const threshold = "Frost, Ristenpart & Guinard (2019), J. Food Sci., abstract";

/** Brewing water by the later standard, by the names of what is measured: what WATER.CHECK holds a report against, and nothing of any other revision. */
export const brewingWater = {
  hardness: { item: "Brewing water: total hardness", low: 50, high: 175, unit: "mg/L CaCO3", source: `${water}, which print it for calcium hardness` },
  alkalinity: { item: "Brewing water: alkalinity", low: 40, high: 70, unit: "mg/L CaCO3", source: water },
  ph: { item: "Brewing water: pH", low: 6, high: 8, unit: "", source: water },
  chlorine: { item: "Brewing water: total chlorine", low: 0, high: 0, unit: "mg/L", source: water },
} as const satisfies Record<string, StandardItem>;

const items: readonly StandardItem[] = [
  { item: "Filter coffee: strength", low: 1.15, high: 1.35, unit: "%", source: goldenCup },
  { item: "Filter coffee: extraction", low: 18, high: 22, unit: "%", source: goldenCup },
  { item: "Filter coffee: coffee for each litre of water", low: 49.5, high: 60.5, unit: "g/L", source: goldenCup },
  { item: "Filter coffee: water at contact", low: 90, high: 96, unit: "°C", source: goldenCup },
  { item: "Filter coffee: difference in strength that tasters notice", low: 0.24, high: "", unit: "% points", source: threshold },
  { item: "Italian espresso: dose", low: 6.5, high: 7.5, unit: "g", source: italian },
  { item: "Italian espresso: water leaving the machine", low: 86, high: 90, unit: "°C", source: italian },
  { item: "Italian espresso: in the cup", low: 64, high: 70, unit: "°C", source: italian },
  { item: "Italian espresso: pressure", low: 8, high: 10, unit: "bar", source: italian },
  { item: "Italian espresso: time", low: 20, high: 30, unit: "s", source: italian },
  { item: "Italian espresso: volume with foam", low: 22.5, high: 27.5, unit: "mL", source: italian },
  { item: "Italian espresso: viscosity at 45 °C", low: 1.5, high: "", unit: "mPa·s", source: italian },
  { item: "Italian espresso: fat", low: 2, high: "", unit: "mg/mL", source: italian },
  { item: "Italian espresso: caffeine in a cup", low: "", high: 100, unit: "mg", source: italian },
  { item: "Espresso: dose of a single", low: 7, high: 9, unit: "g", source: quoted },
  { item: "Espresso: volume of a single", low: 25, high: 35, unit: "mL", source: quoted },
  { item: "Espresso: water temperature", low: 92, high: 95, unit: "°C", source: quoted },
  { item: "Espresso: pressure", low: 9, high: 10, unit: "bar", source: quoted },
  { item: "Espresso: time", low: 20, high: 30, unit: "s", source: quoted },
  { item: "Café espresso: dose", low: 15, high: 22, unit: "g", source: cafes },
  { item: "Café espresso: beverage", low: 30, high: 60, unit: "g", source: cafes },
  ...Object.values(brewingWater),
  { item: "Older standard for brewing water: calcium hardness", low: 17, high: 85, unit: "mg/L CaCO3", source: olderWater },
  { item: "Older standard for brewing water: alkalinity, at or near", low: 40, high: 40, unit: "mg/L CaCO3", source: olderWater },
  { item: "Older standard for brewing water: pH", low: 6.5, high: 7.5, unit: "", source: olderWater },
  { item: "Older standard for brewing water: dissolved solids", low: 75, high: 250, unit: "mg/L", source: `${olderWater}, by the conversion 4-4-2, the default of WATER.TDS` },
  { item: "Older standard for brewing water: sodium, at or near", low: 10, high: 10, unit: "mg/L", source: olderWater },
  { item: "Older standard for brewing water: total chlorine", low: 0, high: 0, unit: "mg/L", source: olderWater },
];

/** The definitions whose item or source holds all the words of `name`. */
export function standard({ name = "" }: { name?: string }): readonly StandardItem[] {
  const wanted = name.toLowerCase().split(/\s+/).filter(Boolean);
  const found = items.filter((it) => wanted.every((word) => `${it.item} ${it.source}`.toLowerCase().includes(word)));
  return found.length > 0 ? found : noAnswer(words`No published definition matches “${name}”. ${functionNamed("STANDARD")}() lists them all.`);
}
