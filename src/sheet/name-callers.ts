/**
 * Lets a refusal know which function it came from: every function that is associated after this tells its name when it is called.
 * The build appends the calls of `CustomFunctions.associate` to the files of src/functions, so this must be imported before them.
 */
import { setCallingFunction } from "./recent-problems";

const associate = CustomFunctions.associate.bind(CustomFunctions) as (id: string, calculate: (...cells: unknown[]) => unknown) => void;

CustomFunctions.associate = ((id: string, calculate: (...cells: unknown[]) => unknown) => {
  associate(id, (...cells) => {
    setCallingFunction(id);
    return calculate(...cells);
  });
}) as typeof CustomFunctions.associate;
