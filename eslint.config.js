import tseslint from "typescript-eslint";

export default tseslint.config(
  { ignores: ["dist/", "node_modules/", ".cache/"] },
  { files: ["**/*.ts"], extends: [...tseslint.configs.strict] },
  {
    files: ["**/*.ts"],
    rules: {
      // Indexing is checked by the compiler (noUncheckedIndexedAccess); a "!" states a bound that the line before has shown.
      "@typescript-eslint/no-non-null-assertion": "off",
      "@typescript-eslint/only-throw-error": "off",
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
      eqeqeq: ["error", "always", { null: "ignore" }],
      "prefer-const": "error",
      "no-console": "error",
      "max-len": ["error", { code: 160, ignoreStrings: true, ignoreTemplateLiterals: true, ignoreComments: true, ignoreRegExpLiterals: true }],
    },
  },
  { files: ["scripts/**/*.ts", "src/hosts/command-line/**/*.ts"], rules: { "no-console": "off" } },
  {
    files: ["shared/**/*.ts", "src/**/*.ts"],
    rules: { "no-eval": "error", "no-implied-eval": "error", "no-new-func": "error" },
  },
  // What each layer's tsconfig.json cannot hold: packages that only one layer may know, and Node's names, which some packages' types bring along.
  {
    files: ["shared/**/*.ts"],
    rules: { "no-restricted-imports": ["error", { patterns: [{ regex: "^(?![.]|pure-rand(/|$))", message: "The calculation module stands alone." }] }] },
  },
  {
    files: ["src/**/*.ts"],
    ignores: ["src/hosts/browser/grid/**", "src/hosts/command-line/**"],
    rules: {
      "no-restricted-imports": [
        "error",
        { patterns: [{ group: ["@univerjs/*"], message: "Only src/hosts/browser/grid/ knows the grid library." }, { regex: "^node:", message: "Only the command line runs in Node." }] },
      ],
      "no-restricted-globals": ["error", "process", "Buffer", "require"],
    },
  },
  {
    files: ["scripts/**/*.ts", "tests/**/*.ts", "*.ts"],
    rules: {
      "no-restricted-syntax": [
        "error",
        { selector: "CallExpression[callee.name=/^(spawn|exec|fork)/] > Literal[value=/^(npm|npx|tsx|tsc|node)$|[.]bin/]", message: "Windows finds no such program without a shell: use build() or runTool() of scripts/build.ts." },
      ],
    },
  },
);
