/**
 * How often tests and decisions are wrong, and how often they find what is there, on made data: npm run simulate -- [cases of each, 5000 if left out].
 * Prints rates beside their aims; seeds are fixed, so that a run can be repeated. A rate counts as beyond its aim where chance alone hardly took it there.
 */
import { rateOf } from "./simulate/simulation.ts";
import { simulations } from "./simulations.ts";

const cases = Number(process.argv[2] ?? 5000);
if (!Number.isInteger(cases) || cases < 1) throw new Error("The number of cases has to be a whole number from 1.");

let topic = "";
let beyond = 0;
for (const simulation of simulations) {
  if (simulation.topic !== topic) console.log(`\n${(topic = simulation.topic)}`);
  const { rate, counted } = rateOf(simulation, cases);
  const [least, most] = simulation.aim ?? [0, 1];
  const chance = 2 * Math.sqrt((rate * (1 - rate)) / counted);
  const isBeyond = rate < least - chance || rate > most + chance;
  if (isBeyond) beyond++;
  const aim = simulation.aim ? `aim: ${least} to ${most}${isBeyond ? "  BEYOND" : ""}` : "";
  console.log(`  ${simulation.what.padEnd(80)} ${rate.toFixed(3)}  ${aim}`);
}
console.log(`\n${simulations.length} rates from ${cases} cases each; ${beyond === 0 ? "all within their aims" : `${beyond} beyond their aims`}.`);
