/** Dissolved solids of a water from its conductivity. */
import { requireRange } from "../problem";

/** Rise of conductivity for each degree, as a part of that at 25 °C: Standard Methods 2510. */
const conductivityRise = 0.0191;

/** What the conversion called 4-4-2 (sodium sulfate, bicarbonate and chloride) has near 450 µS/cm, mg/L for each µS/cm: 447 µS/cm are 300 mg/L. */
const usualFactor = 0.67;

/** Dissolved solids, mg/L, from the conductivity, µS/cm, read at a temperature; the factor belongs to the kind of water. */
export function waterTds({ conductivity, temperature = 25, factor = usualFactor }: { conductivity: number; temperature?: number; factor?: number }): number {
  requireRange("temperature", temperature, 0, 50);
  return (factor * conductivity) / (1 + conductivityRise * (temperature - 25));
}
