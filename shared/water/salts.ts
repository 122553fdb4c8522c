/** Mineral salts for water by their formula: what each is made of and which ions it leaves in the water. */
import { calciumCarbonate, molarMass, type Element } from "../atomic-masses";
import { badInput } from "../problem";
import { argumentName } from "../words";

type Composition = Partial<Record<Element, number>>;

interface Ion {
  readonly composition: Composition;
  /** Elementary charges. */
  readonly charge: number;
}

/** The ions that these salts leave in the water, in the order of a report. */
export const ions = {
  Mg: { composition: { Mg: 1 }, charge: 2 },
  Ca: { composition: { Ca: 1 }, charge: 2 },
  Na: { composition: { Na: 1 }, charge: 1 },
  K: { composition: { K: 1 }, charge: 1 },
  HCO3: { composition: { H: 1, C: 1, O: 3 }, charge: -1 },
  SO4: { composition: { S: 1, O: 4 }, charge: -2 },
  Cl: { composition: { Cl: 1 }, charge: -1 },
} as const satisfies Record<string, Ion>;

export type IonName = keyof typeof ions;
export const ionNames = Object.keys(ions) as IonName[];

/** Molar mass of an ion, g/mol. */
export function ionMass(name: IonName): number {
  return molarMass(ions[name].composition);
}

interface DrySalt {
  readonly formula: string;
  readonly name: string;
  readonly composition: Composition;
  readonly ions: Partial<Record<IonName, number>>;
  /** Molecules of crystal water it is sold with, the usual one first; none where it is always dry. */
  readonly hydrates: readonly number[];
}

const drySalts: readonly DrySalt[] = [
  { formula: "MgSO4", name: "magnesium sulfate", composition: { Mg: 1, S: 1, O: 4 }, ions: { Mg: 1, SO4: 1 }, hydrates: [7, 1] },
  { formula: "MgCl2", name: "magnesium chloride", composition: { Mg: 1, Cl: 2 }, ions: { Mg: 1, Cl: 2 }, hydrates: [6] },
  { formula: "CaCl2", name: "calcium chloride", composition: { Ca: 1, Cl: 2 }, ions: { Ca: 1, Cl: 2 }, hydrates: [2, 6] },
  { formula: "CaSO4", name: "calcium sulfate", composition: { Ca: 1, S: 1, O: 4 }, ions: { Ca: 1, SO4: 1 }, hydrates: [2] },
  // Dissolves only as carbonic acid turns the carbonate into bicarbonate.
  { formula: "CaCO3", name: "calcium carbonate", composition: { Ca: 1, C: 1, O: 3 }, ions: { Ca: 1, HCO3: 2 }, hydrates: [] },
  { formula: "NaHCO3", name: "sodium bicarbonate", composition: { Na: 1, H: 1, C: 1, O: 3 }, ions: { Na: 1, HCO3: 1 }, hydrates: [] },
  { formula: "KHCO3", name: "potassium bicarbonate", composition: { K: 1, H: 1, C: 1, O: 3 }, ions: { K: 1, HCO3: 1 }, hydrates: [] },
  { formula: "NaCl", name: "sodium chloride", composition: { Na: 1, Cl: 1 }, ions: { Na: 1, Cl: 1 }, hydrates: [] },
  { formula: "KCl", name: "potassium chloride", composition: { K: 1, Cl: 1 }, ions: { K: 1, Cl: 1 }, hydrates: [] },
];

export interface Salt {
  /** As it is written here: MgSO4·7H2O, or MgSO4 anhydrous. */
  readonly formula: string;
  /** g/mol, crystal water included. */
  readonly molarMass: number;
  /** Ions from each formula unit. */
  readonly ions: Partial<Record<IonName, number>>;
  /** mg/L of CaCO3 from each mg/L of the salt. */
  readonly hardness: number;
  readonly alkalinity: number;
}

const dots = /\s*[·•∙⋅‧・*.]\s*/g;
const hydrateWords = ["anhydrous", "monohydrate", "dihydrate", "trihydrate", "tetrahydrate", "pentahydrate", "hexahydrate", "heptahydrate"];

/**
 * A salt from its formula or name: MgSO4·7H2O, MgSO4.7H2O, MgSO₄ · 7 H₂O, magnesium sulfate heptahydrate.
 * Where a salt is sold with and without crystal water, the text must say which: guessing would dose a third or a half too much.
 */
export function readSalt(text: string, from = "salt"): Salt {
  const argument = argumentName(from);
  const plain = text.normalize("NFKC").replace(dots, "·").replace(/\s+/g, " ").trim().toLowerCase();
  const { dry, crystalWater } = withoutWater(plain);
  const salt = drySalts.find((it) => it.formula.toLowerCase() === dry || it.name === dry);
  if (!salt) badInput(`${argument} “${text}” is none of the salts known here: ${drySalts.map(usualForm).join(", ")}.`);
  if (crystalWater === undefined) {
    if (salt.hydrates.length > 0) {
      badInput(`${argument} “${text}” does not say its crystal water. Write ${choices(salt)}, as the tub's label says.`);
    }
    return saltOf(salt, 0);
  }
  if (crystalWater !== 0 && !salt.hydrates.includes(crystalWater)) {
    badInput(`${argument} “${text}” is no form in which ${salt.formula} is sold. Write ${salt.hydrates.length > 0 ? choices(salt) : `“${salt.formula}”`}.`);
  }
  return saltOf(salt, crystalWater);
}

/** Splits what a text says of crystal water off: undefined where it says nothing. */
function withoutWater(plain: string): { dry: string; crystalWater?: number } {
  const inFormula = /^(.+?)[· ](\d*) ?h2o$/.exec(plain);
  if (inFormula) return { dry: inFormula[1]!.trim(), crystalWater: inFormula[2] ? Number(inFormula[2]) : 1 };
  const word = hydrateWords.findIndex((it) => plain.split(/[ ,()]+/).includes(it));
  const dry = plain.replace(hydrateWords[word] ?? "", "").replace(/[ ,()]+/g, " ").trim()
    .replace("sulphate", "sulfate").replace(/hydrogen ?carbonate/, "bicarbonate");
  return word < 0 ? { dry } : { dry, crystalWater: word };
}

function choices(salt: DrySalt): string {
  return [...salt.hydrates, 0].map((water) => `“${formulaOf(salt, water)}”`).join(" or ");
}

function usualForm(salt: DrySalt): string {
  return formulaOf(salt, salt.hydrates[0] ?? 0);
}

function formulaOf(salt: DrySalt, crystalWater: number): string {
  if (crystalWater > 0) return `${salt.formula}·${crystalWater === 1 ? "" : crystalWater}H2O`;
  return salt.hydrates.length > 0 ? `${salt.formula} anhydrous` : salt.formula;
}

function saltOf(salt: DrySalt, crystalWater: number): Salt {
  const mass = molarMass(salt.composition) + crystalWater * molarMass({ H: 2, O: 1 });
  const { Mg = 0, Ca = 0, HCO3 = 0 } = salt.ions;
  return {
    formula: formulaOf(salt, crystalWater),
    molarMass: mass,
    ions: salt.ions,
    hardness: ((Mg + Ca) * calciumCarbonate) / mass,
    alkalinity: ((HCO3 / 2) * calciumCarbonate) / mass,
  };
}
