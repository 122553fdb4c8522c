/** Writes the service worker of the browser sheet, with the list of the files that it keeps. */
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { transformSync } from "esbuild";
import webpack, { type Compiler } from "webpack";

export class OfflineWorker {
  constructor(private readonly source: string) {}

  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("OfflineWorker", (compilation) => {
      compilation.fileDependencies.add(this.source);
      // After everything else is there, and as small as it will be.
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_REPORT;
      compilation.hooks.processAssets.tap({ name: "OfflineWorker", stage }, (assets) => {
        // What is copied beyond the folder is not this page's.
        const files = Object.keys(assets).filter((name) => !name.includes("..")).sort();
        const edition = createHash("sha256");
        for (const name of files) edition.update(name).update(assets[name]!.buffer());
        const define = { FILES: JSON.stringify(["./", ...files]), EDITION: JSON.stringify(edition.digest("hex").slice(0, 16)) };
        const { code } = transformSync(readFileSync(this.source, "utf8"), { loader: "ts", target: "es2022", minify: true, define });
        compilation.emitAsset("service-worker.js", new webpack.sources.RawSource(code));
      });
    });
  }
}
