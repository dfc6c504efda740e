/** What a spread is made with where nobody says: in core, by the command and on the page. */
export const spreadDefaults = {
  /** Specimens of the yield. */
  count: 2000,
  /** Points a set for the indices of influence. */
  influence: 256,
  /** Share of specimens that should pass. */
  wanted: 0.9,
  seed: 1,
} as const;
