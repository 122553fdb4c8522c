import { it } from "vitest";
import { beginnings, holdsAfterEdits } from "../copies/saved-and-opened.ts";

it.each(beginnings)("%s after many edits at random, saved and opened, is what it was on the page", (name) => holdsAfterEdits(name, 1000), 600_000);
