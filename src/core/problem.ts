/**
 * How a function says no, and how it warns. An expected failure is an answer, not an exception: a problem is data.
 */

/** Where in the input: ["microphone", "guide", 0, "at"]. */
export type Path = readonly (string | number)[];

export interface Problem {
  /** Stable name, used by tests and other programs: "too-few-peaks". */
  readonly code: string;
  /** Where in the input: ["microphone", "film", "gap"]. */
  readonly path: Path;
  /** What was found, what is needed, what to do. */
  readonly message: string;
}

/** A value with remarks, or the reasons why there is none. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T; readonly remarks: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export const answer = <T>(value: T, remarks: readonly Problem[] = []): Outcome<T> => ({ ok: true, value, remarks });
export const refuse = (...problems: readonly Problem[]): Outcome<never> => ({ ok: false, problems });

/** "microphone.guide[0].at" for ["microphone", "guide", 0, "at"]. */
export function pathText(path: Path): string {
  return path.reduce<string>((text, step) => {
    if (typeof step === "number") return `${text}[${step}]`;
    return text === "" ? step : `${text}.${step}`;
  }, "");
}
