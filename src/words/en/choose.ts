/** The answer of `choose` in words. */

import { formatNumber, formatQuantity } from "../../core/quantity/format.ts";
import type { Choices, ChosenDesign } from "../../core/tasks/choose/choose.ts";
import type { Refusal } from "../../core/tasks/choose/refusal.ts";
import { hanging } from "../wrap.ts";
import { measureText, measureWords } from "./measures.ts";
import { requirementWords } from "./requirements.ts";

const width = 98;

export function chooseLines({ designs, refused, search, tradeOff }: Choices): string[] {
  const met = refused.length === 0;
  const head = met
    ? `${designs.length} ${designs.length === 1 ? "design meets" : "really different designs meet"} the brief.`
    : search.stopped
      ? `Stopped: none of the ${search.evaluations} microphones computed until then meets the whole brief.`
      : "Nothing that may be chosen meets the whole brief.";
  return [
    head,
    ...designs.flatMap((design, i) => ["", ...designLines(design, i)]),
    ...(met
      ? []
      : ["", search.stopped ? "Missed by the nearest so far:" : "In the way:", ...refused.flatMap(refusalLines)]),
    "",
    ...searchLines(search),
    ...(tradeOff.length > 1 ? [`${tradeOff.length} designs of the trade-off stand in --json and --csv.`] : []),
  ];
}

function designLines({ set, as, reserve, scarcest, measures, verdict }: ChosenDesign, i: number): string[] {
  const values = Object.entries(set)
    .map(([path, value]) => `${path.replace(/^microphone\./, "")} ${value}`)
    .join(", ");
  const known = (["sensitivity", "resonance", "damping", "bandTo", "noise", "loudest"] as const)
    .filter((measure) => measures[measure] !== null)
    .map((measure) => `${measureWords[measure].short} ${measureText(measure, measures[measure])}`)
    .join(", ");
  const missed = verdict
    .filter(({ met }) => met === false)
    .map(({ requirement }) => requirementWords(requirement).label);
  return [
    ...hanging(`${i + 1}. `, `${as.join(", ")}: ${values}`, width),
    ...hanging("   ", known, width),
    ...(missed.length > 0
      ? hanging("   ", `misses ${missed.join(", ")}`, width)
      : [`   scarcest requirement: ${spareText(scarcest, reserve)}`]),
  ];
}

/** "band to, 6.5 % to spare"; the reserve is the logarithm of a ratio. */
const spareText = (scarcest: string | null, reserve: number | null): string =>
  scarcest === null || reserve === null
    ? "nothing known"
    : `${requirementWords(scarcest).label}, ${formatNumber(100 * Math.expm1(reserve), { digits: 2 })} % to spare`;

function refusalLines({ requirement, asked, nearest, alone, reason }: Refusal): string[] {
  const { label, kind } = requirementWords(requirement);
  const shown = (value: number) => formatQuantity(value, kind, { digits: 3 });
  const only = alone === null || shown(alone) === shown(nearest) ? "" : `; ${shown(alone)} if all others are to hold`;
  return [
    ...hanging(
      "  - ",
      `${label} ${shown(asked)}: can be ${shown(nearest)} together with the rest as found${only}.`,
      width,
    ),
    ...hanging("    ", reason, width),
  ];
}

function searchLines({
  evaluations,
  stopped,
  settled,
  ends,
  scanned,
  scannedBetter,
  seed,
}: Choices["search"]): string[] {
  const apart = ends.length > 1 ? Math.abs(ends[0]! - ends[1]!) : 0;
  const agreement =
    ends.length < 2
      ? "stopped before two searches had ended, so something better may well be missing"
      : apart < 0.01
        ? "two searches from different starts ended at the same worth within 1 %"
        : `two searches from different starts ended ${formatNumber(100 * apart, { digits: 2 })} % apart: search longer (--evaluations)`;
  return hanging(
    "Search: ",
    `${evaluations} microphones computed, seed ${seed}; ${agreement}; ${settled ? "both had come to rest; " : stopped ? "" : "the calls ran out before they had come to rest; "}of ${scanned} designs spread evenly over everything that may be chosen ${scannedBetter === 0 ? "none is" : scannedBetter === 1 ? "one is" : `${scannedBetter} are`} better than what the search that was told of none of them ended with.`,
    width,
  );
}
