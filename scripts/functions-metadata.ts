/** Completes functions.json: names of arguments are in lower case, errors reach the functions instead of stopping a whole column, and every function has its help page. */
import webpack, { type Compiler } from "webpack";

interface Metadata {
  allowErrorForDataTypeAny?: boolean;
  functions: { id: string; helpUrl?: string; parameters: { name: string }[] }[];
}

export class FunctionsMetadata {
  constructor(private readonly address: string) {}

  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("FunctionsMetadata", (compilation) => {
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_OPTIMIZE_INLINE;
      compilation.hooks.processAssets.tap({ name: "FunctionsMetadata", stage }, () => {
        const asset = compilation.getAsset("functions.json");
        if (!asset) return; // the metadata plugin has already reported why
        const metadata = JSON.parse(asset.source.source().toString()) as Metadata;
        metadata.allowErrorForDataTypeAny = true;
        for (const it of metadata.functions) {
          it.helpUrl = `${this.address}/functions/${it.id}.html`;
          // As the names of Excel's own arguments read.
          for (const parameter of it.parameters) parameter.name = parameter.name.toLowerCase();
        }
        compilation.updateAsset("functions.json", new webpack.sources.RawSource(JSON.stringify(metadata)));
      });
    });
  }
}
