/** What a search is made with where nobody says: in core, by the command and on the page. */
export const chooseDefaults = {
  /** Microphones to compute at most, all searches together. */
  evaluations: 1600,
  seed: 1,
} as const;
