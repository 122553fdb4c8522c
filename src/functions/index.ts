/** The functions bundle: every worksheet function, and the link through which the page sets units and reads problems. */
import "../sheet/name-callers";
import { offerLink } from "../sheet/bundle-interface";
export * from "./about";
export * from "./comparison";
export * from "./dialin";
export * from "./flow";
export * from "./log";
export * from "./read";
export * from "./shot";
export * from "./tasting";
export * from "./uncertainty";
export * from "./water";

offerLink();
