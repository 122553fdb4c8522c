/**
 * What is wrong: where a function of the engine throws, the whole calculation ends there and then.
 * How it shows: one such formula leaves every other cell without a result, and no later edit is calculated.
 * Here that formula is #VALUE!, and the rest goes on.
 */
import { ErrorType, ErrorValueObject, Interpreter } from "@univerjs/engine-formula";

export function endOnlyTheFormulaThatThrows(): void {
  const interpreter = Interpreter.prototype;
  const execute = interpreter.execute;
  interpreter.execute = function (node) {
    try {
      return execute.call(this, node);
    } catch {
      return ErrorValueObject.create(ErrorType.VALUE) as unknown as ReturnType<typeof execute>;
    }
  };
}
