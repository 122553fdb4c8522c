/** Writes licences.txt beside the bundles: the minifiers drop the notices of the packages that the bundles hold. */
import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Compilation, Compiler, Module } from "webpack";

/** One instance for all bundles, which are built side by side: each adds its packages, and writes all there are once its own files are out. */
export class Licences {
  private readonly notices = new Map<string, string>();

  constructor(private readonly folder: string) {}

  apply(compiler: Compiler): void {
    compiler.hooks.afterEmit.tap("Licences", (compilation) => {
      for (const folder of packagesIn(compilation)) this.notices.set(folder, noticeOf(folder));
      writeFileSync(join(this.folder, "licences.txt"), [...this.notices.values()].sort().join("\n\n"));
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
