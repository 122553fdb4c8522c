/** Minerals for pure water: how much of a salt, and which ions it leaves. Masses a litre are mg/L. */
import { calciumCarbonate } from "../atomic-masses";
import { badInput, noAnswer } from "../problem";
import { amount, words } from "../words";
import { equivalent } from "./carbonate";
import { ionMass, ionNames, ions, readSalt, type IonName, type Salt } from "./salts";

/** Mass of a salt, g, that raises what it carries by `rise` mg/L CaCO3 in `volume` litres. */
export function waterSalt({ salt, rise, volume }: { salt: string; rise: number; volume: number }): number {
  const { formula, hardness, alkalinity } = readSalt(salt);
  // Calcium carbonate carries as much of one as of the other.
  const carried = hardness || alkalinity;
  if (carried === 0) badInput(`${formula} carries neither hardness nor alkalinity, so no amount of it raises either.`);
  return gramsOf(rise / carried, volume);
}

function gramsOf(milligramsPerLitre: number, litres: number): number {
  return (milligramsPerLitre * litres) / 1000;
}

/** Salts, g, that give pure water this hardness and alkalinity. Each salt is neutral, so the water is. */
export function waterRecipe(given: {
  hardness: number; alkalinity: number; volume: number;
  magnesiumShare?: number; magnesiumSalt?: string; calciumSalt?: string; alkalinitySalt?: string;
}): { salt: string; grams: number }[] {
  const { hardness, alkalinity, volume, magnesiumShare = 100 } = given;
  const magnesium = readSalt(given.magnesiumSalt ?? "MgSO4·7H2O", "magnesiumSalt");
  const calcium = readSalt(given.calciumSalt ?? "CaCl2·2H2O", "calciumSalt");
  const buffer = readSalt(given.alkalinitySalt ?? "NaHCO3", "alkalinitySalt");
  if (!magnesium.ions.Mg) badInput(`magnesiumsalt ${magnesium.formula} carries no magnesium.`);
  if (!calcium.ions.Ca) badInput(`calciumsalt ${calcium.formula} carries no calcium.`);
  if (buffer.alkalinity === 0 || buffer.hardness > 0) {
    badInput(`alkalinitysalt ${buffer.formula} must carry alkalinity and no hardness, as NaHCO3 and KHCO3 do.`);
  }
  const magnesiumDose = ((magnesiumShare / 100) * hardness) / magnesium.hardness;
  const calciumDose = ((1 - magnesiumShare / 100) * hardness) / calcium.hardness;
  const alreadyThere = magnesiumDose * magnesium.alkalinity + calciumDose * calcium.alkalinity;
  // A whisker of rounding must not refuse calcium carbonate that brings exactly the alkalinity asked for.
  const missing = Math.abs(alkalinity - alreadyThere) < 1e-9 * alkalinity ? 0 : alkalinity - alreadyThere;
  if (missing < 0) {
    noAnswer(words`${calcium.formula} brings ${amount("alkalinity", alreadyThere)} of alkalinity with the hardness, more than the ${amount("alkalinity", alkalinity)} asked for. Take another calciumsalt.`);
  }
  return [
    { salt: magnesium.formula, grams: gramsOf(magnesiumDose, volume) },
    { salt: calcium.formula, grams: gramsOf(calciumDose, volume) },
    { salt: buffer.formula, grams: gramsOf(missing / buffer.alkalinity, volume) },
  ];
}

/** The ions, mg/L, that salts leave in `volume` litres of pure water, then hardness and alkalinity as CaCO3 and the charge balance in %. */
export function waterIons({ salts, grams, volume }: {
  salts: readonly string[]; grams: readonly number[]; volume: number;
}): { ion: string; content: number }[] {
  if (grams.length === 0) noAnswer("No salt has a mass yet.");
  const millimoles = new Map<IonName, number>(ionNames.map((name) => [name, 0]));
  salts.forEach((text, index) => addIons(millimoles, readSalt(text, `salts, entry ${index + 1},`), (grams[index]! * 1000) / volume));
  const of = (name: IonName): number => millimoles.get(name)!;
  const charge = (sign: number): number =>
    ionNames.reduce((sum, name) => sum + (Math.sign(ions[name].charge) === sign ? Math.abs(ions[name].charge) * of(name) : 0), 0);
  const [positive, negative] = [charge(1), charge(-1)];
  const imbalance = positive + negative === 0 ? 0 : (100 * (positive - negative)) / (positive + negative);
  return [
    ...ionNames.map((name) => ({ ion: name, content: of(name) * ionMass(name) })),
    { ion: "Hardness as CaCO3", content: (of("Mg") + of("Ca")) * calciumCarbonate },
    { ion: "Alkalinity as CaCO3", content: of("HCO3") * equivalent },
    // Binary rounding alone would show as 1E-14 in a sheet.
    { ion: "Charge balance, %", content: Math.round(imbalance * 1e9) / 1e9 || 0 },
  ];
}

function addIons(millimoles: Map<IonName, number>, salt: Salt, milligramsPerLitre: number): void {
  for (const [name, count] of Object.entries(salt.ions) as [IonName, number][]) {
    millimoles.set(name, millimoles.get(name)! + (count * milligramsPerLitre) / salt.molarMass);
  }
}
