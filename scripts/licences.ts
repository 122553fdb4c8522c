/** Writes licences.txt beside the bundles: the minifiers drop the notices of the packages that the bundles hold. */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import webpack, { type Compilation, type Compiler, type Module } from "webpack";

/** One instance for all bundles: each adds its packages, so that the bundle that is built last writes them all. */
export class Licences {
  private readonly notices = new Map<string, string>();

  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("Licences", (compilation) => {
      compilation.hooks.processAssets.tap({ name: "Licences", stage: webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL }, () => {
        for (const folder of packagesIn(compilation)) this.notices.set(folder, noticeOf(folder));
        compilation.emitAsset("licences.txt", new webpack.sources.RawSource([...this.notices.values()].sort().join("\n\n")));
      });
    });
  }
}

function packagesIn({ chunks, chunkGraph }: Compilation): Set<string> {
  const files = [...chunks].flatMap((chunk) => [...chunkGraph.getChunkModulesIterable(chunk)]).flatMap(filesOf);
  return new Set(files.flatMap((file) => /^.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+/.exec(file)?.[0] ?? []));
}

/** Modules that were joined into one keep their own files. */
function filesOf(module: Module & { readonly modules?: Iterable<Module> }): string[] {
  return module.modules ? [...module.modules].flatMap(filesOf) : [module.nameForCondition() ?? ""];
}

function noticeOf(folder: string): string {
  const { name, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8")) as { name: string; license?: string };
  const notices = readdirSync(folder).filter((entry) => /^(licen[cs]e|copying|notice|third.?party)[^/]*$/i.test(entry) && statSync(join(folder, entry)).isFile());
  return [name, license ?? "", ...notices.map((file) => readFileSync(join(folder, file), "utf8").trim())].join("\n");
}
