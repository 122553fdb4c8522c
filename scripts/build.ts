/** Builds dist/ as `npm run build` does, but without npm, which Windows finds only through a shell. */
import { spawnSync, type SpawnSyncReturns } from "node:child_process";

export function build(environment: Readonly<Record<string, string>> = {}): void {
  console.log("Building (about 20 seconds) …");
  const { status, stdout, stderr } = runTool("webpack/bin/webpack.js", [], environment);
  if (status !== 0) throw new Error(`${stdout}${stderr}\nThe build failed; the lines above say why.`);
}

/** Runs a script of an installed package, as in "eslint/bin/eslint.js", to its end. */
export function runTool(script: string, args: readonly string[], environment: Readonly<Record<string, string>> = {}): SpawnSyncReturns<string> {
  return spawnSync(process.execPath, ["--import", "tsx", `node_modules/${script}`, ...args], { encoding: "utf8", env: { ...process.env, ...environment } });
}
