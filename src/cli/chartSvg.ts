/** A chart as an SVG file. */
import { writeFile } from "node:fs/promises";
import { parseHTML } from "linkedom";
import { answer, type ChartPlane, type Measure, type Outcome, refuse } from "../core/index.ts";
import { paperColors } from "../figure/colors.ts";
import { planeFigure } from "../figure/planeFigure.ts";
import { planeLines } from "../figure/planeLines.ts";
import { reasonOf } from "../words/en/fileErrors.ts";

const families: readonly Measure[] = ["sensitivity", "resonance", "damping"];

/** Problems: `svg-not-written`. */
export async function writeChartSvg(file: string, plane: ChartPlane): Promise<Outcome<null>> {
  const { document } = parseHTML("<html><body></body></html>");
  const { svg } = planeFigure({
    plane,
    lines: planeLines(plane, families),
    here: plane.here.x === null || plane.here.y === null ? null : { x: plane.here.x, y: plane.here.y },
    document,
    width: 900,
    height: 640,
    colors: paperColors,
  });
  try {
    await writeFile(file, `${svg.outerHTML}\n`);
    return answer(null);
  } catch (error) {
    return refuse({
      code: "svg-not-written",
      path: ["--svg"],
      message: `${file} can't be written: ${reasonOf(error)}.`,
    });
  }
}
