/** package.json names what the project uses, and the licences of what the build holds go along with it. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { isBuiltin } from "node:module";
import { dirname, join } from "node:path";
import ts from "typescript";
import { expect, it } from "vitest";

const { dependencies, devDependencies } = JSON.parse(readFileSync("package.json", "utf8")) as Record<"dependencies" | "devDependencies", Record<string, string>>;

function sourcesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts")).map((name) => join(folder, name));
}

/** "@scope/name/part" is of the package "@scope/name". */
function packagesOf(files: readonly string[]): string[] {
  const imported = files.flatMap((file) => ts.preProcessFile(readFileSync(file, "utf8")).importedFiles.map(({ fileName }) => fileName));
  const outside = imported.filter((specifier) => !specifier.startsWith(".") && !isBuiltin(specifier));
  return [...new Set(outside.map((specifier) => specifier.split("/").slice(0, specifier.startsWith("@") ? 2 : 1).join("/")))];
}

/** The files of the project that these import, one through the other. */
function reachedFrom(entries: readonly string[]): string[] {
  const reached = new Set(entries);
  for (const file of reached) {
    for (const { fileName } of ts.preProcessFile(readFileSync(file, "utf8")).importedFiles) {
      const path = join(dirname(file), fileName);
      const found = [path, `${path}.ts`, join(path, "index.ts")].find((it) => it.endsWith(".ts") && existsSync(it));
      if (fileName.startsWith(".") && found) reached.add(found);
    }
  }
  return [...reached];
}

it("every package that is imported is declared, at one version", () => {
  const declared = { ...dependencies, ...devDependencies };
  const imported = packagesOf([...["shared", "src", "scripts", "tests"].flatMap(sourcesIn), "eslint.config.js", "vitest.config.ts", "webpack.config.js"]);
  expect(imported).toContain("@univerjs/core");
  expect(imported.filter((name) => !(name in declared))).toEqual([]);
  for (const [name, version] of Object.entries(declared)) expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
});

it("licences.txt has the notice of every package that the bundles hold", () => {
  const bundled = packagesOf(reachedFrom(["src/hosts/excel/functions.ts", "src/hosts/excel/taskpane.ts", "src/hosts/browser/page.ts", "src/hosts/google/functions.ts", "src/help/search.ts"]));
  const notices = `\n${readFileSync("dist/licences.txt", "utf8")}`;
  // Those of packages that packages hold are there too.
  for (const name of [...bundled, "react", "d3-scale"]) {
    const { license } = JSON.parse(readFileSync(`node_modules/${name}/package.json`, "utf8")) as { license: string };
    expect(notices, name).toContain(`\n${name}\n${license}\n`);
  }
  expect(bundled).toContain("pure-rand");
});
