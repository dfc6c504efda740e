/** "required: at least 0.4"; of two ends "required: 0.4 to 0.9". */
export function requiredText(ends: readonly { readonly most: boolean; readonly value: string }[]): string {
  const [least, most] = [ends.find((one) => !one.most), ends.find((one) => one.most)];
  if (least !== undefined && most !== undefined) return `required: ${least.value} to ${most.value}`;
  return `required: ${ends.map(({ most, value }) => `${most ? "at most" : "at least"} ${value}`).join(", ")}`;
}

/** Words of the page Chart. */
export const chartWords = {
  plane: "The plane",
  planeAside: "every point is the whole model",
  what: "the plane",
  axes: "Axes",
  along: "Across",
  up: "Upward",
  from: "from",
  to: "to",
  lines: "Lines of equal",
  linesAside: "four at most",
  laws: "Power laws, dotted",
  lawsAside:
    "From the present design, sensitivity as side³ / thickness² and resonance as thickness / side². Where a dotted line leaves its own the simple chart fails.",
  noLaws: "Power laws are known over side and thickness.",
  points: "Points",
  stop: "Stop",
  goOn: "Go on",
  stopped: "Stopped.",
  design: "The design",
  designAside: "drag the ring, step it with the arrow keys, or type",
  handle: "The design in the plane; arrow keys move it",
  region: (state: "unasked" | "none" | "some" | "all") =>
    ({
      unasked: "The brief asks for nothing that is computed, so nothing is shaded.",
      none: "No point here meets the whole brief. Gray lines are the limits of its requirements.",
      some: "Shaded: the whole brief is met. Gray lines are the limits of its requirements, heavy where they bound it.",
      all: "The whole brief is met everywhere here.",
    })[state],
  without: "no such microphone",
  withoutSays:
    "Hatched: no such microphone (buckled, or a guide beside it); Bench says why when the design is put there.",
  coarse: (points: number) => `Coarse so far: ${points} × ${points} points.`,
  tied: "The other side and the guide go with the side in proportion.",
  table: "Every point of the plane",
  badEnd: "Needed: values above 0 with their unit, the first below the second.",
  badCutEnd: "Needed: two values with their unit, the first below the second.",
  along1: "Along one value",
  along1Aside: "everything else as it is",
  number: "Number",
  against: "Against",
  presets: [
    { says: "damping against gap", path: "microphone.film.gap", measure: "damping" },
    { says: "sensitivity against guide position", path: "microphone.guide.at", measure: "sensitivity" },
    { says: "band against thickness", path: "microphone.diaphragm.thickness", measure: "bandTo" },
    { says: "noise against power", path: "microphone.light.launched", measure: "noise" },
  ],
  curve: "the curve",
  now: "now",
  required: "required",
  noNumbers: "This number is not there anywhere along it.",
  alongTable: "Every number along this value",
  kept: "Kept designs",
} as const;
