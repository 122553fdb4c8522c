/** Writes the help pages into the build. */
import webpack, { type Compiler } from "webpack";
import { helpFiles } from "../src/help/pages.ts";
import type { Declaration } from "./read-declarations.ts";

export class HelpPages {
  constructor(
    private readonly declarations: readonly Declaration[],
    private readonly version: string,
  ) {}

  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("HelpPages", (compilation) => {
      compilation.hooks.processAssets.tap({ name: "HelpPages", stage: webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL }, () => {
        for (const [file, text] of helpFiles(this.declarations, this.version)) compilation.emitAsset(file, new webpack.sources.RawSource(text));
      });
    });
  }
}
