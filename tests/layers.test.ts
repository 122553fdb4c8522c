import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { describe, expect, it } from "vitest";

/** The folder tree is the architecture: who may import whom, and which words may stand where. */
const mayImport: Record<string, string[]> = {
  shared: ["shared"],
  "src/sheet": ["shared", "src/sheet"],
  "src/help": ["shared", "src/sheet", "src/help"],
  "src/log-file": ["shared", "src/log-file"],
  "src/functions": ["shared", "src/sheet", "src/help", "src/functions"],
  "src/starters": ["shared", "src/sheet", "src/starters"],
  "src/pane": ["shared", "src/sheet", "src/starters", "src/pane"],
  "src/xlsx": ["shared", "src/sheet", "src/starters", "src/xlsx"],
  "src/hosts/excel": ["shared", "src/sheet", "src/help", "src/starters", "src/pane", "src/hosts/excel"],
  "src/hosts/browser": ["shared", "src/sheet", "src/help", "src/log-file", "src/starters", "src/pane", "src/xlsx", "src/hosts/browser"],
  "src/hosts/command-line": ["shared", "src/sheet", "src/log-file", "src/hosts/command-line"],
};

const sources = ["shared", "src"]
  .flatMap((root) => readdirSync(root, { recursive: true, encoding: "utf8" }).map((name) => join(root, name)))
  .filter((name) => name.endsWith(".ts"))
  .map((file) => {
    const text = readFileSync(file, "utf8");
    const imports = [...text.matchAll(/(?:from|import)\s*\(?\s*"([^"]+)"/g)].map((match) => match[1]!);
    return { file, text, imports };
  });

const layerOf = (file: string): string | undefined => Object.keys(mayImport).find((layer) => file.startsWith(`${layer}/`));

describe.each(sources)("$file", ({ file, text, imports }) => {
  it("lies in a layer and imports only from the layers below it", () => {
    const layer = layerOf(file);
    expect(layer).toBeDefined();
    const targets = imports.filter((it) => it.startsWith(".")).map((it) => layerOf(relative(".", resolve(dirname(file), it))) ?? it);
    expect(targets.filter((target) => !mayImport[layer!]!.includes(target))).toEqual([]);
  });

  it("keeps hosts and libraries where they belong", () => {
    const packages = imports.filter((it) => !it.startsWith("."));
    if (file.startsWith("shared/")) expect(packages.filter((it) => !it.startsWith("pure-rand"))).toEqual([]);
    if (!file.startsWith("src/hosts/excel/")) expect(text).not.toMatch(/\b(Office|Excel)\.[A-Za-z]/);
    if (!/^src\/hosts\/browser\/grid\//.test(file)) expect(packages.filter((it) => it.startsWith("@univerjs"))).toEqual([]);
    expect(text).not.toMatch(/\beval\(|new Function\(/);
  });
});
