/** Every worksheet function under the name of its export: the id with an underscore for the dot. */
export * from "./about";
export * from "./comparison";
export * from "./dialin";
export * from "./flow";
export * from "./instruments";
export * from "./log";
export * from "./read";
export * from "./shot";
export * from "./tasting";
export * from "./uncertainty";
export * from "./water";
