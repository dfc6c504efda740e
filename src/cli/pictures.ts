/** What chart, choose and spread found, as SVG files. */
import { writeFile } from "node:fs/promises";
import { parseHTML } from "linkedom";
import {
  answer,
  type ChartPlane,
  type Choices,
  formatQuantity,
  type Measure,
  type Outcome,
  type Project,
  readBrief,
  refuse,
  type Spread,
} from "../core/index.ts";
import { paperColors } from "../figure/colors.ts";
import { planeFigure } from "../figure/planeFigure.ts";
import { planeLines } from "../figure/planeLines.ts";
import { spreadFigure } from "../figure/spreadFigure.ts";
import { tradeOffFigure } from "../figure/tradeOffFigure.ts";
import { chooseWords } from "../words/en/choosePage.ts";
import { reasonOf } from "../words/en/fileErrors.ts";
import { spreadWords } from "../words/en/spreadPage.ts";

const families: readonly Measure[] = ["sensitivity", "resonance", "damping"];

const room = (height: number) => {
  const { document } = parseHTML("<html><body></body></html>");
  return { document, width: 900, height, colors: paperColors };
};

/** Lines of equal value and the region where the brief is met. Problems: those of `write`. */
export function writePlane(file: string, plane: ChartPlane): Promise<Outcome<null>> {
  const { x, y } = plane.here;
  const here = x === null || y === null ? null : { x, y };
  return write(file, planeFigure({ plane, lines: planeLines(plane, families), here, ...room(640) }).svg);
}

/** What each design pays for the others. Problems: those of `write`. */
export function writeTradeOff(file: string, found: Choices, project: Project): Promise<Outcome<null>> {
  const { sensitivity, band } = readBrief(project);
  const place = { now: null, asked: { sensitivity: sensitivity?.atLeast ?? null, bandTo: band?.to ?? null } };
  const said = {
    description: chooseWords.tradeOffText,
    band: chooseWords.tradeBand,
    sensitivity: chooseWords.tradeSensitivity,
    required: chooseWords.required,
    now: chooseWords.now,
  };
  return write(file, tradeOffFigure(found, place, said, room(480)).svg);
}

/** Where the responses of the specimens lie. Problems: those of `write`. */
export function writeBand(file: string, spread: Spread, project: Project): Promise<Outcome<null>> {
  const { band, reference } = readBrief(project);
  const said = {
    description: spreadWords.bandText,
    level: spreadWords.level(formatQuantity(reference, "frequency", { digits: 2 })),
    half: spreadWords.half,
    twoThirds: spreadWords.twoThirds,
    most: spreadWords.most,
    within: band?.withinDb ?? null,
    band: [band?.from ?? null, band?.to ?? null] as const,
  };
  return write(file, spreadFigure(spread.band, said, room(420)).svg);
}

/** Problems: `svg-not-written`. */
async function write(file: string, svg: { readonly outerHTML: string }): Promise<Outcome<null>> {
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
