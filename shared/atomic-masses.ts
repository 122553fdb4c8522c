/**
 * Abridged standard atomic weights, g/mol.
 * Source: IUPAC Commission on Isotopic Abundances and Atomic Weights (CIAAW), abridged table of 2021.
 */
export const atomicMasses = {
  H: 1.008,
  C: 12.011,
  N: 14.007,
  O: 15.999,
  Na: 22.99,
  Mg: 24.305,
  S: 32.06,
  Cl: 35.45,
  K: 39.098,
  Ca: 40.078,
} as const;

export type Element = keyof typeof atomicMasses;

/** Molar mass, g/mol, of a composition such as { Ca: 1, C: 1, O: 3 }. */
export function molarMass(composition: Partial<Record<Element, number>>): number {
  let mass = 0;
  for (const [element, count] of Object.entries(composition)) mass += atomicMasses[element as Element] * count;
  return mass;
}

/** Molar masses, g/mol, of what water reports are expressed as. */
export const calciumCarbonate = molarMass({ Ca: 1, C: 1, O: 3 });
export const calciumOxide = molarMass({ Ca: 1, O: 1 });
export const bicarbonate = molarMass({ H: 1, C: 1, O: 3 });
