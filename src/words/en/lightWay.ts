/** What the drawing of the light's way says. */

export const lightWayWords = {
  title: "The light's way",
  hint: "section along the guide; lengths to scale, heights not",
  unknown: "not given",
  bends: "bends",
  betweenPolarizers: "of guide between the polarizers",
  betweenSplits: "of guide in the arm",
  split: "light parts",
  joined: "arms meet",
  polarizer: (angle: string) => `polarizer ${angle}`,
  analyzer: (angle: string) => `analyzer ${angle}`,
  ports: (outputs: "one" | "both") => (outputs === "both" ? "both ports detected" : "one port detected"),
  says: (way: {
    readonly kind: "polarimetric" | "interferometric";
    readonly laser: string;
    readonly polarizer: string;
    readonly analyzer: string;
    readonly bends: string;
    readonly length: string;
    readonly face: "front" | "back";
  }) =>
    way.kind === "polarimetric"
      ? `Light of ${way.laser} passes a ${way.polarizer}, runs as TE and TM through ${way.length} of guide under the ${way.face} face, ${way.bends} of it bent by sound, and the ${way.analyzer} turns their phase difference into intensity.`
      : `Light of ${way.laser} parts into ${way.length} of guide under the ${way.face} face, ${way.bends} of it bent by sound, and a reference arm; where they meet, their phase difference becomes intensity.`,
} as const;
