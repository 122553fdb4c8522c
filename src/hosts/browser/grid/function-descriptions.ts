/** What autocompletion and the argument help show of a function. */
import { BooleanNumber } from "@univerjs/core";
import { FunctionType, type IFunctionInfo } from "@univerjs/engine-formula";
import { fullName, type FunctionMetadata } from "../function-metadata";

export function descriptionOf(metadata: FunctionMetadata): IFunctionInfo {
  const description = metadata.description ?? "";
  return {
    functionName: fullName(metadata),
    functionType: FunctionType.User,
    description,
    abstract: description,
    functionParameter: metadata.parameters.map(({ name, description: detail = "", optional }) => ({
      name,
      detail,
      example: "A2",
      require: optional ? BooleanNumber.FALSE : BooleanNumber.TRUE,
      repeat: BooleanNumber.FALSE,
    })),
  };
}
