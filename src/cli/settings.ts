/** The values of `--set`. */
import { answer, type Outcome, refuse } from "../core/problem.ts";

export interface Setting {
  /** "microphone.film.gap" as typed. */
  readonly path: string;
  /** JSON text of the new value. */
  readonly json: string;
}

/**
 * "microphone.film.gap=50 um": the value is JSON where it reads as JSON, otherwise a string.
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
  return answer({ path, json: jsonText(text.slice(equals + 1)) });
}

function jsonText(value: string): string {
  try {
    JSON.parse(value);
    return value.trim();
  } catch {
    return JSON.stringify(value.trim());
  }
}
