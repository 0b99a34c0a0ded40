// A problem's line in the text: asked for in one view, shown in another.
import { go } from "./go.js";

let wanted = null;

/** Opens the text at a problem's line. */
export function toLine(problem) {
  wanted = problem;
  go("text");
}

/** The problem whose line is to be shown, once. */
export function taken() {
  const problem = wanted;
  wanted = null;
  return problem;
}
