/** What the house around the pages says. */
import { counted } from "./problems.ts";

export const shellWords = {
  pages: "Pages",
  walk: "Walk",
  keys: "Keys",
  yes: "yes",
  no: "no",
  chooseOne: "choose a value",
  toPage: "To the page",
  notYet: "This page comes later.",
  nextPage: "Until then the Bench shows what is computed already.",
  loading: (page: string) => `Loading the page ${page}…`,
  pageFault: (page: string) => `The page ${page} stopped with a fault of this program. Your project is not touched.`,
  again: "Try again",
  computing: (what: string) => `Computing ${what}…`,
  progress: (what: string, done: number, of: number) => `Computing ${what}: ${done} of ${of}.`,
  waiting: (what: string) => `Waits for the first answer, then computes ${what}.`,
  mendFirst: (what: string) => `Waits until the problems named above are mended, then computes ${what}.`,
  oldAnswer: (what: string) => `Old: ${what} belongs to an earlier state of the project.`,
  noAnswer: (what: string, problems: number) => `No answer for ${what}: ${counted(problems, "problem")}.`,
} as const;
