/**
 * functions.json, which Excel and the browser sheet read: what Microsoft's own reader makes of the comments, and what it leaves out.
 * Names of arguments are in lower case, errors reach the functions instead of stopping a whole column, and every function has its help page.
 */
import { generateCustomFunctionsMetadata } from "custom-functions-metadata";
import webpack, { type Compiler } from "webpack";
import { declarationFiles } from "./read-declarations.ts";

interface Metadata {
  allowErrorForDataTypeAny?: boolean;
  functions: { id: string; helpUrl?: string; parameters: { name: string }[] }[];
}

export class FunctionsMetadata {
  constructor(private readonly address: string) {}

  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("FunctionsMetadata", (compilation) => {
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tapPromise({ name: "FunctionsMetadata", stage }, async () => {
        compilation.emitAsset("functions.json", new webpack.sources.RawSource(await this.json()));
      });
    });
  }

  private async json(): Promise<string> {
    const { metadataJson, errors } = await generateCustomFunctionsMetadata(declarationFiles());
    if (errors.length > 0) throw new Error(errors.join("\n"));
    const metadata = JSON.parse(metadataJson) as Metadata;
    metadata.allowErrorForDataTypeAny = true;
    for (const declared of metadata.functions) {
      declared.helpUrl = `${this.address}/functions/${declared.id}.html`;
      for (const parameter of declared.parameters) parameter.name = parameter.name.toLowerCase();
    }
    return JSON.stringify(metadata);
  }
}
