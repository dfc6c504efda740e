/** A plane of two values: lines of equal sensitivity, resonance, damping ..., the region where the brief is met, the design. */
import { kindOf } from "../core/quantity/kinds.ts";
import type { ChartPlane } from "../core/tasks/chart/plane.ts";
import { chartWords } from "../words/en/chartPage.ts";
import { measureText, measureWords } from "../words/en/measures.ts";
import { requirementWords } from "../words/en/requirements.ts";
import { type Axis, logAxis } from "./axis.ts";
import { type Colors, dashes } from "./colors.ts";
import { displayUnit } from "./displayUnit.ts";
import { type Box, textWidth } from "./labels.ts";
import { alongLine } from "./lineLabels.ts";
import { lines, mark } from "./marks.ts";
import type { PlaneLines, Stroke } from "./planeLines.ts";
import { roomWithin, withoutMarks } from "./planeWithout.ts";
import type { FigureRoom } from "./responseFigures.ts";
import { fontSize, sheet } from "./sheet.ts";

type Place = { readonly x: number; readonly y: number };

export interface PlaneFigureInput extends FigureRoom {
  readonly plane: Pick<ChartPlane, "x" | "y">;
  readonly lines: PlaneLines;
  /** The design, where it lies [SI]; null: not drawn. */
  readonly here?: Place | null;
  /** Kept designs, where they lie [SI]. */
  readonly kept?: readonly (Place & { readonly name: string })[];
}

export interface PlaneFigure {
  readonly svg: SVGSVGElement;
  readonly frame: Box;
  /** Values [SI] of a place in the picture [px], and back. */
  readonly valueAt: (x: number, y: number) => Place;
  readonly placeOf: (x: number, y: number) => Place;
}

/** Room round the axes [px]. */
const margins = { top: 28, right: 18, bottom: 44, left: 46 };

export function planeFigure(input: PlaneFigureInput): PlaneFigure {
  const { plane, lines: found, document, width, height, colors, here = null, kept = [] } = input;
  const { x, y } = plane;
  const frame: Box = {
    left: margins.left,
    right: width - margins.right,
    top: margins.top,
    bottom: height - margins.bottom,
  };
  const [wide, high] = [frame.right - frame.left, frame.bottom - frame.top];
  const [axisX, axisY] = [axisOf(x, wide), axisOf(y, high)];
  const placeOf = (vx: number, vy: number) => ({
    x: frame.left + (wide * Math.log(vx / x.from)) / Math.log(x.to / x.from),
    y: frame.bottom - (high * Math.log(vy / y.from)) / Math.log(y.to / y.from),
  });
  const drawn = (stroke: Stroke) => stroke.map(([u, v]) => ({ x: frame.left + wide * u, y: frame.bottom - high * v }));
  const path = (strokes: readonly Stroke[], end = "") =>
    strokes
      .map((stroke) => {
        const points = drawn(stroke).map((point) => `${point.x.toFixed(1)},${point.y.toFixed(1)}`);
        return `M${points.join("L")}${end}`;
      })
      .join("");
  const line = (d: string, attributes: Readonly<Record<string, string | number>>) =>
    mark(document, "path", { d, fill: "none", ...attributes });
  const svg = sheet(document, { width, height }, { description: described(input), colors });
  const up = (value: number) => [placeOf(value, y.from).x, frame.bottom, placeOf(value, y.from).x, frame.top] as const;
  const across = (value: number) =>
    [frame.left, placeOf(x.from, value).y, frame.right, placeOf(x.from, value).y] as const;
  const colorOf = (k: number) => colors.series[k] ?? colors.ink;
  svg.append(
    ...withoutMarks(document, found.without.map(drawn), colors),
    line(path(found.region, "Z"), { class: "allowed", fill: colors.wanted, "fill-rule": "evenodd" }),
    line(
      lines([
        ...[...axisX.minor, ...axisX.ticks].map(up),
        ...[...axisY.minor, ...axisY.ticks].map(across),
        [frame.left, frame.bottom, frame.right, frame.bottom],
        [frame.left, frame.bottom, frame.left, frame.top],
      ]),
      { stroke: colors.grid },
    ),
    ...(found.laws ?? []).map(({ levels }, k) =>
      line(path(levels.flatMap((one) => one.lines)), {
        class: "laws",
        stroke: colorOf(k),
        "stroke-width": 1.5,
        "stroke-linecap": "round",
        "stroke-dasharray": "0.1 5",
      }),
    ),
    ...found.families.map(({ measure, levels }, k) =>
      line(path(levels.flatMap((one) => one.lines)), {
        class: `family ${measure}`,
        stroke: colorOf(k),
        "stroke-width": 1.25,
        "stroke-dasharray": dashes[k] ?? "none",
        "stroke-linejoin": "round",
      }),
    ),
    ...found.edges.map((edge) => line(path(edge.whole), { class: "limit", stroke: colors.soft, "stroke-width": 1 })),
    ...found.edges.map((edge) =>
      line(path(edge.lines), {
        class: "edge",
        "data-requirement": edge.requirement,
        stroke: colors.ink,
        "stroke-width": 2.5,
        "stroke-linejoin": "round",
      }),
    ),
  );
  const write = writer(svg, colors);
  for (const tick of axisX.ticks)
    write(axisX.tickText(tick), placeOf(tick, y.from).x, frame.bottom + 16, { anchor: "middle" });
  for (const tick of axisY.ticks)
    write(axisY.tickText(tick), frame.left - 6, placeOf(x.from, tick).y + 4, { anchor: "end" });
  write(axisX.label, frame.right, height - 8, { anchor: "end" });
  write(axisY.label, 0, margins.top - 13);
  const taken: Box[] = [];
  for (const [i, one] of kept.entries()) {
    const at = placeOf(one.x, one.y);
    if (inside(at, frame)) taken.push(keptMark(svg, { ...one, ...at }, colorOf((i + 1) % 4), { colors, frame }));
  }
  writeLabels(svg, { found, drawn, taken, frame, colors });
  if (here !== null && inside(placeOf(here.x, here.y), frame)) {
    const at = placeOf(here.x, here.y);
    const dot = {
      class: "design",
      cx: at.x,
      cy: at.y,
      r: 5,
      fill: colors.ground,
      stroke: colors.ink,
      "stroke-width": 2,
    };
    svg.append(mark(document, "circle", dot));
  }
  return {
    svg,
    frame,
    placeOf,
    valueAt: (px, py) => ({
      x: x.from * (x.to / x.from) ** ((px - frame.left) / wide),
      y: y.from * (y.to / y.from) ** ((frame.bottom - py) / high),
    }),
  };
}

const inside = ({ x, y }: Place, frame: Box): boolean =>
  x >= frame.left - 1 && x <= frame.right + 1 && y >= frame.top - 1 && y <= frame.bottom + 1;

const axisOf = (axis: ChartPlane["x"], length: number): Axis => {
  const unit = displayUnit(axis.kind, Math.sqrt(axis.from * axis.to));
  // A logarithm of degrees Celsius means nothing: such an axis is in kelvin.
  const { per, name } = unit.zero === 0 ? unit : { per: 1, name: kindOf(axis.kind).si };
  return logAxis(name === "" ? axis.label : `${axis.label} (${name})`, [axis.from, axis.to], { length, per });
};

/** What it shows, in a sentence, for those who can't see it. */
function described({ plane: { x, y }, lines: { families } }: PlaneFigureInput): string {
  const named = families.map(({ measure }) => measureWords[measure].label.toLowerCase());
  return `Lines of equal ${named.join(", ")} over ${x.label.toLowerCase()} and ${y.label.toLowerCase()}.`;
}

interface Writing {
  readonly color?: string;
  readonly anchor?: "start" | "middle" | "end";
  /** Degrees, clockwise. */
  readonly turn?: number;
}

/** Texts with a halo, so that a line under them is not read with them. */
const writer =
  (svg: SVGSVGElement, colors: Colors) =>
  (said: string, x: number, y: number, { color = colors.soft, anchor = "start", turn = 0 }: Writing = {}): void => {
    const text = mark(svg.ownerDocument, "text", {
      x,
      y,
      fill: color,
      "text-anchor": anchor,
      stroke: colors.ground,
      "stroke-width": 4,
      "stroke-linejoin": "round",
      "paint-order": "stroke",
      ...(turn !== 0 && { transform: `rotate(${turn.toFixed(1)} ${x.toFixed(1)} ${y.toFixed(1)})` }),
    });
    text.textContent = said;
    svg.append(text);
  };

/** A kept design with its name; gives the room that both take. */
function keptMark(
  svg: SVGSVGElement,
  { x, y, name }: Place & { readonly name: string },
  color: string,
  { colors, frame }: { readonly colors: Colors; readonly frame: Box },
): Box {
  const wide = textWidth(name, fontSize) + 12;
  const left = x + wide > frame.right;
  const square = { x: x - 4, y: y - 4, width: 8, height: 8, fill: colors.ground, stroke: color, "stroke-width": 2 };
  svg.append(mark(svg.ownerDocument, "rect", { class: "kept-point", ...square }));
  writer(svg, colors)(name, x + (left ? -10 : 10), y + 4, { color, anchor: left ? "end" : "start" });
  return { left: left ? x - wide : x - 6, right: left ? x + 6 : x + wide, top: y - 9, bottom: y + 9 };
}

/** A label on each line, along it, where it covers no other; those of the edges first. */
function writeLabels(
  svg: SVGSVGElement,
  given: {
    readonly found: PlaneLines;
    readonly drawn: (stroke: Stroke) => readonly Place[];
    /** Room that is not free any more. */
    readonly taken: Box[];
    readonly frame: Box;
    readonly colors: Colors;
  },
): void {
  const { found, drawn, taken, frame, colors } = given;
  const write = writer(svg, colors);
  /** false: there is no room for it. */
  function put(strokes: readonly Stroke[], said: string, color: string, first: number): boolean {
    const longest = [...strokes].sort((a, b) => b.length - a.length)[0];
    const room = { width: textWidth(said, fontSize), first, frame, taken };
    const label = longest === undefined ? null : alongLine(drawn(longest), room);
    if (label === null) return false;
    taken.push(label.box);
    // Centered on the line, whatever its direction.
    write(said, label.x, label.y + 4, { color, anchor: "middle", turn: label.turn });
    return true;
  }
  const empty = found.without.map(drawn);
  const room = roomWithin(empty, chartWords.without, fontSize, taken);
  if (room !== null) {
    const half = textWidth(chartWords.without, fontSize) / 2;
    taken.push({ left: room.x - half, right: room.x + half, top: room.y - 9, bottom: room.y + 9 });
    write(chartWords.without, room.x, room.y + 4, { anchor: "middle" });
  }
  // Where a requirement bounds nothing its line is named as well: it may be what stands in the way.
  for (const { requirement, lines: of, whole } of found.edges) {
    const named = requirementWords(requirement).label;
    if (!put(of, named, colors.ink, 0.5)) put(whole, named, colors.soft, 0.5);
  }
  for (const [k, { measure, levels }] of found.families.entries())
    for (const [n, { level, lines: of }] of levels.entries()) {
      const said = `${measureWords[measure].short} ${measureText(measure, level, 2)}`;
      put(of, said, colors.series[k] ?? colors.ink, 0.25 + 0.15 * ((k + n) % 4));
    }
}
