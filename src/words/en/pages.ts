/** What the pages are called, what each is for, and what a page will hold that has not come yet. */

export interface PageWords {
  readonly name: string;
  /** One sentence under the title. */
  readonly purpose: string;
  /** One sentence in place of the content, as long as there is none. */
  readonly later: string;
}

export const pageWords = {
  shelf: {
    name: "Shelf",
    purpose: "Projects and specimens: find one, open it, bring one in or hand one out.",
    later: "It will hold your projects and specimens with search, import and export, and the demo.",
  },
  brief: {
    name: "Brief",
    purpose: "What is asked of the microphone, where it will stand, and what that place demands of you.",
    later: "It will hold the requirements, the site and the precautions that the site brings.",
  },
  bench: {
    name: "Bench",
    purpose: "The microphone under your hand: drag an edge or type a value, and every curve follows.",
    later: "It will hold the drawing, the values and the curves.",
  },
  chart: {
    name: "Chart",
    purpose: "The plane of two values: what the microphone would do at every point of it.",
    later:
      "It will hold curves of equal sensitivity, resonance, damping and noise over any two values, with the allowed region and a design point to drag.",
  },
  light: {
    name: "Light",
    purpose: "The way of the light: guide, modes, bias, and how phase becomes a voltage.",
    later: "It will hold the guide and its process, the modes, the bias, the transfer curve and the drift.",
  },
  limits: {
    name: "Limits",
    purpose: "The faintest and the loudest sound, and what sets each of them.",
    later: "It will hold the noise by source and band, the loudest sound, the strength and the dynamic range.",
  },
  spread: {
    name: "Spread",
    purpose: "What fabrication and site do to the design.",
    later: "It will hold the tolerances, the yield, what matters most, and the corner cases.",
  },
  workshop: {
    name: "Workshop",
    purpose: "What the workshop and the mask maker get, and what they must be careful about.",
    later: "It will hold drawings, the mask, the process sheet with its cautions, and their downloads.",
  },
  records: {
    name: "Records",
    purpose: "What was measured, on which specimen, and what it says with what uncertainty.",
    later: "It will hold specimens, the import of records, fits, residuals and uncertainty budgets.",
  },
  learn: {
    name: "Learn",
    purpose: "Theory against measurement.",
    later: "It will hold the adjusted specimen, what the data can't tell apart, and the measurement to make next.",
  },
  report: {
    name: "Report",
    purpose: "What you hand to colleagues: figures, numbers and where they come from.",
    later: "It will hold what goes in, a preview, PDF and HTML, and figures for a paper.",
  },
} as const satisfies Readonly<Record<string, PageWords>>;

export type PageKey = keyof typeof pageWords;
/** In the order in which a project is worked on. */
export const pageKeys = Object.keys(pageWords) as readonly PageKey[];
