/** The list of `--at`. */
import { answer, type Outcome, type Problem, refuse } from "../core/problem.ts";
import { readQuantity } from "../core/quantity/read.ts";

/** Most frequencies that one call answers: every hertz of the audible band. */
export const mostFrequencies = 20_000;

/** Highest frequency that is answered [Hz]: the wavelength there is 0.35 um, five mean free paths. */
const highest = 1e9;

/**
 * Frequencies [Hz] from "100 Hz, 1 kHz", in the order asked, repeated ones included.
 *
 * Commas or semicolons part them; with a semicolon anywhere a comma is a decimal comma ("1,5 kHz; 2 kHz").
 * Problems: `at-empty`, `at-too-many`, `at-out-of-range`, and those of a quantity, one for each entry that is wrong.
 */
export function readFrequencies(text: string): Outcome<readonly number[]> {
  const entries = text.split(text.includes(";") ? ";" : ",").map((entry) => entry.trim());
  if (entries.every((entry) => entry === ""))
    return refuse({
      code: "at-empty",
      path: ["--at"],
      message: 'No frequency was given. Needed: a list such as "100 Hz, 1 kHz", or no --at for the whole response.',
    });
  if (entries.length > mostFrequencies)
    return refuse({
      code: "at-too-many",
      path: ["--at"],
      message: `${entries.length} frequencies were given; one call answers at most ${mostFrequencies}. Ask in several calls.`,
    });
  const problems: Problem[] = [];
  const remarks: Problem[] = [];
  const frequencies = entries.map((entry, i) => {
    const outcome = readFrequency(entry, i, entries);
    if (outcome.ok) remarks.push(...outcome.remarks);
    else problems.push(...outcome.problems);
    return outcome.ok ? outcome.value : 0;
  });
  return problems.length > 0 ? refuse(...problems) : answer(frequencies, remarks);
}

function readFrequency(entry: string, i: number, entries: readonly string[]): Outcome<number> {
  const path = ["--at", i];
  if (entry === "")
    return refuse({ code: "at-empty", path, message: "Nothing stands between two commas. Needed: a frequency." });
  const outcome = readQuantity(entry, "frequency", path);
  // "1,5 kHz" in a list with commas arrives as "1" and "5 kHz".
  if (!outcome.ok && /^\d+$/.test(entry) && /^\d/.test(entries[i + 1] ?? ""))
    return refuse({
      code: "no-unit",
      path,
      message: `Found "${entry}", without a unit. Commas part the frequencies of this list; for decimal commas part them with semicolons: "1,5 kHz; 2 kHz".`,
    });
  if (!outcome.ok || (outcome.value > 0 && outcome.value <= highest)) return outcome;
  return refuse({
    code: "at-out-of-range",
    path,
    message: `Found "${entry}"; a frequency must lie above 0 Hz and not above 1 GHz, above which air is no continuum to sound.`,
  });
}
