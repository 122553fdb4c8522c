/** Plain JavaScript, because a thread starts with nothing else: from here on TypeScript is read too. */
import { register } from "tsx/esm/api";

register();
await import("./worker.ts");
