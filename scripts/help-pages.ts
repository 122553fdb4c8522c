/** Writes the help pages into the build. What errors mean is said once, in the README. */
import { readFileSync } from "node:fs";
import webpack, { type Compiler } from "webpack";
import { escaped } from "../src/help/escaped.ts";
import { helpFiles } from "../src/help/pages.ts";
import type { Declaration } from "./read-declarations.ts";
import { workedExamples } from "./worked-examples.ts";

export class HelpPages {
  constructor(
    private readonly declarations: readonly Declaration[],
    private readonly version: string,
  ) {}

  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("HelpPages", (compilation) => {
      compilation.hooks.processAssets.tapPromise({ name: "HelpPages", stage: webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL }, async () => {
        const worked = await workedExamples(this.declarations, this.version);
        const examplesOf = ({ name }: { name: string }) => worked(this.declarations.find((declaration) => declaration.name === name)!);
        const files = helpFiles(this.declarations, this.version, errorTable(), examplesOf);
        for (const [file, text] of files) compilation.emitAsset(file, new webpack.sources.RawSource(text));
      });
    });
  }
}

function errorTable(): string {
  const section = /<!-- errors -->\n([^]*?)\n<!-- \/errors -->/.exec(readFileSync("README.md", "utf8"));
  if (!section) throw new Error("README.md has no table between <!-- errors --> and <!-- /errors -->.");
  const rows = section[1]!.split("\n").filter((line) => !/^\|[-|]+\|$/.test(line)).map((line) => line.slice(1, -1).split("|").map((cell) => inline(cell.trim())));
  const [head, ...body] = rows;
  const line = (tag: string, cells: string[]): string => `<tr>${cells.map((cell) => `<${tag}>${cell}</${tag}>`).join("")}</tr>`;
  return `<table>\n<thead>${line("th", head!)}</thead>\n<tbody>\n${body.map((cells) => line("td", cells)).join("\n")}\n</tbody>\n</table>`;
}

/** A line of Markdown that has no more than code in it. */
function inline(text: string): string {
  return escaped(text).replace(/`([^`]+)`/g, "<code>$1</code>");
}
