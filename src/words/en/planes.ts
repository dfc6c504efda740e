/** Words of the page Chart and of the search for designs. */
export const chartWords = {
  plane: "The plane",
  planeAside: "every point is the whole model",
  what: "the plane",
  along: "Across",
  up: "Upward",
  from: "from",
  to: "to",
  lines: "Lines of equal",
  laws: "Power laws from the present design, dotted",
  lawsAside:
    "sensitivity as side³ / thickness², resonance as thickness / side²: where they part from the lines, the simple chart fails",
  points: "Points",
  stop: "Stop",
  goOn: "Go on",
  stopped: "Stopped: what is there so far stays.",
  design: "The design",
  designAside: "drag the ring, or type",
  handle: "The design in the plane; arrow keys move it",
  shaded:
    "Shaded: everything that is computed of the brief is met. Heavy lines are its edges, named by the requirement that draws them.",
  tied: (paths: readonly string[]) => `In proportion with the side: ${paths.join(", ")}.`,
  none: "No point of this plane meets the brief.",
  table: "Every point of the plane",
  badEnd: "An end needs a value above 0 with its unit, the first below the second.",
} as const;

export const chooseWords = {
  title: "Designs that meet it",
  aside: "a search over everything that may be chosen",
  what: "designs",
  find: "Find designs",
  stop: "Stop",
  take: "Put it on the table",
  relax: "Relax to this",
  inTheWay: "In the way",
  spare: (percent: string) => `scarcest requirement: ${percent} to spare`,
  leastBad: "Nothing that may be chosen meets the whole brief. This comes nearest:",
  alone: (value: string) => `${value} if all others are to hold`,
  tradeOff: "What each pays for the others",
  tradeOffText: "Sensitivity against the upper end of the band, the best of each kind.",
  says: (count: number, settled: boolean, seed: number) =>
    `${count} microphones computed, seed ${seed}; the searches ${settled ? "came to rest" : "ran out of calls before they came to rest"}.`,
} as const;
