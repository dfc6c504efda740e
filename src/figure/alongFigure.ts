/** One number along one value of the design: any against any, with the requirement drawn in and kept designs beside it. */
import { formatQuantity } from "../core/quantity/format.ts";
import type { Cut } from "../core/tasks/chart/cut.ts";
import type { Measure } from "../core/tasks/predict/judge.ts";
import type { Verdict } from "../core/tasks/predict/prediction.ts";
import { asGiven } from "../words/asGiven.ts";
import { chartWords, requiredText } from "../words/en/chartPage.ts";
import { measureText, measureWords } from "../words/en/measures.ts";
import { requirementWords } from "../words/en/requirements.ts";
import { type Axis, frequencyText, linearAxis, logAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { Region } from "./curveInput.ts";
import { type DisplayUnit, displayUnit, unitLabel } from "./displayUnit.ts";
import { extent, type FigureRoom } from "./responseFigures.ts";
import type { Column } from "./tables.ts";

export interface Along {
  readonly cut: Cut;
  readonly measure: Measure;
  /** Where the design is: its value [SI] and its number; null: out of sight, or it has none. */
  readonly here: { readonly x: number; readonly y: number } | null;
  readonly verdict: readonly Verdict[];
  /** What the present curve is called where it is not alone. */
  readonly now: string;
  readonly kept: readonly { readonly name: string; readonly cut: Cut }[];
}

export function alongFigure({ cut, measure, here, verdict, now, kept }: Along, room: FigureRoom): Figure {
  const unit = unitAlong(cut);
  const values = [cut, ...kept.map((one) => one.cut)].flatMap((one) => one.measures[measure]);
  const known = values.filter((value): value is number => value !== null);
  const asked = askedOf(measure, verdict);
  const y = heightAxis(measure, [...known, ...asked.map((line) => line.asked)], cut.scale === "log", room);
  const toX = (value: number) => (value - unit.zero) / unit.per;
  const domain: [number, number] = [toX(cut.from), toX(cut.to)];
  const label = unitLabel(cut.label, unit);
  const x =
    cut.scale === "log"
      ? logAxis(label, domain, { length: room.width - 60 })
      : linearAxis(label, domain, { count: room.width > 420 ? 8 : 4, tight: true });
  const curve = (name: string, one: Cut) => ({ name, x: one.values.map(toX), y: one.measures[measure] });
  return curveFigure({
    ...room,
    description: `${measureWords[measure].label} against ${cut.label.toLowerCase()}, everything else as it is.`,
    x,
    y,
    curves: [curve(kept.length > 0 ? now : "", cut), ...kept.map((one) => curve(one.name, one.cut))],
    markers:
      here === null
        ? []
        : [
            {
              x: toX(here.x),
              y: here.y,
              text: sayAlong(cut, measure)(toX(here.x), here.y),
              shorter: measureText(measure, here.y),
              dropped: true,
            },
          ],
    region: requirement(asked, domain, y),
  });
}

/** "38.0 µm: 0.538" */
export function sayAlong(cut: Cut, measure: Measure): (x: number, y: number | null) => string {
  const unit = unitAlong(cut);
  return (x, y) => `${formatQuantity(x * unit.per + unit.zero, cut.kind, { digits: 3 })}: ${measureText(measure, y)}`;
}

export function alongTable(cut: Cut): readonly Column[] {
  const shown = (Object.keys(cut.measures) as Measure[]).filter((measure) =>
    cut.measures[measure].some((value) => value !== null),
  );
  return [
    { title: cut.label, values: cut.values, text: (value) => formatQuantity(value, cut.kind, { digits: 4 }) },
    ...shown.map((measure) => ({
      title: measureWords[measure].label,
      values: cut.measures[measure],
      text: (value: number | null) => measureText(measure, value, 4),
    })),
  ];
}

const unitAlong = ({ kind, from, to, scale }: Cut): DisplayUnit =>
  displayUnit(
    kind,
    scale === "log"
      ? Math.sqrt(from * to)
      : kind === "temperature"
        ? (from + to) / 2
        : Math.max(Math.abs(from), Math.abs(to)),
  );

const decibels: readonly Measure[] = ["noise", "loudest", "vibration"];
const hertz: readonly Measure[] = ["resonance", "bandFrom", "bandTo"];

function heightAxis(measure: Measure, values: readonly number[], bent: boolean, room: FigureRoom): Axis {
  const [low, high] = values.length > 0 ? extent(values) : [0.1, 1];
  const { label, kind } = measureWords[measure];
  if (decibels.includes(measure)) return linearAxis(`${label} (dB)`, [low - 1, high + 1], { count: 5 });
  const { per, name } = displayUnit(kind, Math.max(Math.abs(high), 1e-30));
  const text = hertz.includes(measure) ? "Hz" : name;
  const said = text === "" ? label : `${label} (${text})`;
  // Over a value from edge to edge a number goes through zero: logarithms would show nothing else.
  if (bent && low > 0)
    return hertz.includes(measure)
      ? logAxis(said, [low / 1.1, high * 1.1], { length: room.height - 70, text: frequencyText })
      : logAxis(said, [low / 1.1, high * 1.1], { length: room.height - 70, per });
  return linearAxis(hertz.includes(measure) ? `${label} (${name})` : said, [Math.min(0, low), high], { count: 5, per });
}

const requirements: Readonly<Partial<Record<Measure, readonly string[]>>> = {
  sensitivity: ["brief.sensitivity.atLeast", "brief.sensitivity.atMost"],
  damping: ["brief.damping.atLeast", "brief.damping.atMost"],
  bandFrom: ["brief.band.from"],
  bandTo: ["brief.band.to"],
  noise: ["brief.noise.atMost"],
  loudest: ["brief.loudest.atLeast"],
  vibration: ["brief.vibration.atMost"],
  strength: ["brief.strength.atLeast"],
};

const askedOf = (measure: Measure, verdict: readonly Verdict[]): readonly Verdict[] =>
  verdict.filter(({ requirement }) => requirements[measure]?.includes(requirement) === true);

/** The heights that are asked for; null where nothing is. */
function requirement(asked: readonly Verdict[], x: [number, number], y: Axis): Region | null {
  if (asked.length === 0) return null;
  const most = (line: Verdict) => /\.(atMost|from)$/.test(line.requirement);
  const least = asked.find((line) => !most(line))?.asked ?? y.domain[0];
  const top = asked.find(most)?.asked ?? y.domain[1];
  const text = requiredText(
    asked.map((line) => ({
      most: most(line),
      value: asGiven(line.asked, requirementWords(line.requirement).kind),
    })),
  );
  return { x, y: [least, top], text, shorter: chartWords.required };
}
