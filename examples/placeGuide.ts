/**
 * Where to put the guide: the clamped edge is the best place, and a few micrometers beside it cost something.
 *
 *     npx tsx examples/placeGuide.ts
 */
import { fileURLToPath } from "node:url";
import { formatNumber, formatQuantity, predict } from "../src/core/index.ts";
import { answerOf, withValue, workedPlate } from "./workedPlate.ts";

export interface GuidePlaces {
  /** Position with the largest static sensitivity [m] and the sensitivity there [rad/Pa]. */
  readonly best: { readonly at: number; readonly value: number };
  /** At the center [rad/Pa]. */
  readonly center: number;
  /** Position without sensitivity, on the positive side [m]. */
  readonly silent: number;
  /** Share of the best sensitivity that is lost 5 um inside the edge [-]. */
  readonly lost: number;
}

export function placeGuide(say: (line: string) => void = console.log): GuidePlaces {
  const project = workedPlate();
  const { sensitivity } = answerOf(predict(project));
  const { best, nulls, static: center } = sensitivity;
  const silent = nulls.find((at) => at > 0) ?? Number.NaN;
  const inside = answerOf(predict(withValue(project, "microphone.guide.at", `${best.at - 5e-6} m`))).sensitivity.static;
  const lost = 1 - inside / best.value;
  const perPascal = (value: number) => formatQuantity(value, "phaseSensitivity", { digits: 3 });
  const place = (at: number) => formatQuantity(at, "length", { digits: 3 });
  say(`Best at ${place(best.at)} from the center: ${perPascal(best.value)}; at the center ${perPascal(center)}.`);
  say(`Nothing is heard at ${place(silent)}, where the curvature changes its sign.`);
  say(`5 um inside the best place ${formatNumber(100 * lost, { digits: 2 })} % are lost: mask and edge must meet.`);
  return { best, center, silent, lost };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) placeGuide();
