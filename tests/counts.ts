/** How often a property is tried: in the long tests twenty times as often. */
export function runs(count: number): number {
  const { env } = import.meta as unknown as { readonly env: { readonly MODE: string } };
  return env.MODE === "long" ? 20 * count : count;
}
