/** The text of `--set`. */
import { answer, type Outcome, refuse } from "../core/problem.ts";

export interface Setting {
  /** "microphone.film.gap" as typed. */
  readonly path: string;
  /** The new value as typed; JSON where it reads as JSON, otherwise a string. */
  readonly value: string;
}

/**
 * "microphone.film.gap=50 um" in its two halves, parted at the first "=".
 *
 * Problems: `set-without-value`, `set-without-path`.
 */
export function readSetting(text: string): Outcome<Setting> {
  const equals = text.indexOf("=");
  const path = text.slice(0, Math.max(equals, 0)).trim();
  if (equals < 0)
    return refuse({
      code: "set-without-value",
      path: ["--set"],
      message: `Found "${text}". Needed: a path, "=", and a value, such as --set microphone.film.gap="50 um".`,
    });
  if (path === "")
    return refuse({
      code: "set-without-path",
      path: ["--set"],
      message: `Found "${text}", with nothing before "=". Needed: a path such as microphone.film.gap.`,
    });
  return answer({ path, value: text.slice(equals + 1).trim() });
}
