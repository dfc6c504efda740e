/** Colors of figures. On a page they follow the setting, in a file they are fixed. */
export interface Colors {
  readonly ink: string;
  readonly soft: string;
  readonly hairline: string;
  readonly grid: string;
  /** What the figure lies on, for the halo of labels. */
  readonly ground: string;
  /** Area of a requirement. */
  readonly wanted: string;
  /** Light in the guide. */
  readonly light: string;
  readonly series: readonly [string, string, string, string];
}

/** The page's own variables, light and dark alike. */
export const pageColors: Colors = {
  ink: "var(--ink)",
  soft: "var(--soft)",
  hairline: "var(--hairline)",
  grid: "var(--grid)",
  ground: "var(--card)",
  wanted: "var(--wanted)",
  light: "var(--light)",
  series: ["var(--ink)", "var(--series-2)", "var(--series-3)", "var(--series-4)"],
};

/** Black on white paper. */
export const paperColors: Colors = {
  ink: "#1c2126",
  soft: "#59626c",
  hairline: "#dcd8cd",
  grid: "#eceae2",
  ground: "#ffffff",
  wanted: "#f1efe8",
  light: "#d4570f",
  series: ["#1c2126", "#96650f", "#5b4a9e", "#2f6b3c"],
};

/** Series differ by dash as well as by color. */
export const dashes: readonly [string, string, string, string] = ["none", "6 4", "2 3", "9 3 2 3"];
