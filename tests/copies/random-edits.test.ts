import { it } from "vitest";
import { beginnings, holdsAfterEdits } from "./saved-and-opened.ts";

it.each(beginnings)("%s after edits at random, saved and opened, is what it was on the page", (name) => holdsAfterEdits(name, 25));
