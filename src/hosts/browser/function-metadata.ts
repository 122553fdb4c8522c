/** What functions.json says about the functions: the same file that Excel reads. */
import { spelled } from "../../sheet/spelling";

export interface ParameterMetadata {
  readonly name: string;
  readonly description?: string;
  readonly dimensionality?: string;
  readonly optional?: boolean;
}

export interface FunctionMetadata {
  readonly id: string;
  readonly name: string;
  readonly description?: string;
  readonly helpUrl?: string;
  readonly parameters: readonly ParameterMetadata[];
}

export function fullName(metadata: FunctionMetadata): string {
  return spelled(metadata.name.toUpperCase());
}

export async function loadFunctionMetadata(): Promise<readonly FunctionMetadata[]> {
  const answer = await fetch("functions.json");
  if (!answer.ok) throw new Error(`functions.json could not be loaded (${answer.status}).`);
  return ((await answer.json()) as { functions: FunctionMetadata[] }).functions;
}

/** Why a call with this many arguments cannot be calculated; undefined where it can. */
export function argumentCountProblem(metadata: FunctionMetadata, count: number): string | undefined {
  const { parameters } = metadata;
  const least = parameters.filter((parameter) => !parameter.optional).length;
  const most = parameters.length;
  if (count >= least && count <= most) return undefined;
  const takes = least === most ? `${most}` : `${least} to ${most}`;
  const names = parameters.map(({ name, optional }) => (optional ? `[${name}]` : name)).join(", ");
  const signature = most === 0 ? "no argument" : `${takes} ${most === 1 ? "argument" : "arguments"} (${names})`;
  return `${fullName(metadata)} takes ${signature}, but has ${count}.`;
}
