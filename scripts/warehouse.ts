/** Writes the check of a shot into the build as one script for warehouses, and the SQL that tells them about it. */
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import webpack, { type Compiler } from "webpack";

const folder = "src/hosts/warehouse";

export class Warehouse {
  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("Warehouse", (compilation) => {
      compilation.hooks.processAssets.tapPromise({ name: "Warehouse", stage: webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL }, async () => {
        const emit = (name: string, text: string): void => compilation.emitAsset(`warehouse/${name}`, new webpack.sources.RawSource(text));
        const script = await checkShotScript();
        emit("check-shot.js", script);
        for (const name of readdirSync(folder).filter((it) => it.endsWith(".sql"))) {
          emit(name, readFileSync(join(folder, name), "utf8").replace("{{check-shot.js}}", () => script.trim()));
        }
      });
    });
  }
}

/** Declares checkShot. The engines of warehouses can be old, so it asks for no more of the language than ES2015 has. */
async function checkShotScript(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [join(folder, "check-shot.ts")],
    bundle: true,
    write: false,
    minify: true,
    charset: "utf8",
    format: "iife",
    globalName: "pucksheet",
    target: "es2015",
    footer: { js: "var checkShot = pucksheet.checkShot;" },
  });
  return outputFiles[0]!.text;
}
