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
    files: ["scripts/**/*.ts", "tests/**/*.ts", "*.ts"],
    rules: {
      "no-restricted-syntax": [
        "error",
        { selector: "CallExpression[callee.name=/^(spawn|exec|fork)/] > Literal[value=/^(npm|npx|tsx|tsc|node)$|[.]bin/]", message: "Windows finds no such program without a shell: use build() or runTool() of scripts/build.ts." },
      ],
    },
  },
);
