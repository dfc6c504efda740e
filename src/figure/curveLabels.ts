/** What is written in a figure of curves: the axes, the names at the ends, and labels where they cover nothing. */
import type { Axis } from "./axis.ts";
import type { Curve, CurveFigureInput, Region } from "./curveInput.ts";
import { type Scale, traceOf } from "./curvePath.ts";
import { type Box, type Leader, placeLabels, type Trace, textWidth, type Wanted } from "./labels.ts";
import { mark } from "./marks.ts";
import { fontSize, margins } from "./sheet.ts";

/** Class of what belongs to the curves as they were drawn. */
export const atRest = "at-rest";

/** A name as it fits beside the curves. */
function shortened(name: string, longest: number): string {
  if (textWidth(name, fontSize) <= longest) return name;
  let kept = name;
  while (kept.length > 1 && textWidth(`${kept}…`, fontSize) > longest) kept = kept.slice(0, -1);
  return `${kept.trimEnd()}…`;
}

/** Room that a name takes beside the curves [px]; `longest`: what it may take at most. */
export const nameWidth = (name: string, longest: number): number =>
  name === "" ? 0 : textWidth(shortened(name, longest), fontSize) + 4;

interface Places {
  readonly frame: Box;
  readonly xScale: Scale;
  readonly yScale: Scale;
  /** Longest name of a curve [px]. */
  readonly longest: number;
}

/** Axis labels, then the labels of what is drawn, each where it covers nothing. */
export function writeLabels(
  svg: SVGSVGElement,
  input: CurveFigureInput,
  { frame, xScale, yScale, longest }: Places,
): void {
  const { width, height, colors, x, y, curves, markers = [], region = null, rules = [] } = input;
  const place = (value: number, axis: "x" | "y") => (axis === "x" ? xScale : yScale).place(value);
  const traces: Trace[] = curves.map((curve) => traceOf(curve.x, curve.y, xScale, yScale));
  for (const tick of x.ticks) text(svg, x.tickText(tick), place(tick, "x"), frame.bottom + 16, "middle", colors.soft);
  for (const tick of y.ticks) text(svg, y.tickText(tick), frame.left - 8, place(tick, "y") + 4, "end", colors.soft);
  text(svg, y.label, 0, margins.top - 13, "start", colors.soft);
  // At the end of the axis; a long one on a narrow figure reaches into the room of the names.
  text(
    svg,
    x.label,
    Math.min(width, Math.max(frame.right, textWidth(x.label, fontSize))),
    height - 6,
    "end",
    colors.soft,
  );
  const named = [...curves, ...(input.areas ?? []).map(({ name, x, low }) => ({ name, x, y: low }))];
  const ends = named.map((one) => traceOf(one.x, one.y, xScale, yScale));
  for (const name of endNames(named, ends, frame)) {
    const color = name.index < curves.length ? (colors.series[name.index % 4] ?? colors.ink) : colors.soft;
    const said = text(svg, shortened(name.text, longest), frame.right + 6, name.y + 4, "start", color);
    if (name.index === 0) said.setAttribute("class", atRest);
  }
  const drops = markers.map((marker) => [
    { x: place(marker.x, "x"), y: place(marker.y, "y") },
    { x: place(marker.x, "x"), y: marker.dropped === true ? frame.bottom : place(marker.y, "y") },
  ]);
  const lines = rules.map((rule) => [
    { x: place(rule.x, "x"), y: frame.top },
    { x: place(rule.x, "x"), y: frame.bottom },
  ]);
  const dots = markers
    .filter(({ quiet }) => quiet !== true)
    .map((marker) => around(place(marker.x, "x"), place(marker.y, "y"), 5));
  const wanted: (Wanted & { readonly color: string })[] = [
    ...markers.map((marker) => ({
      text: marker.text,
      ...(marker.shorter !== undefined && { shorter: marker.shorter }),
      x: place(marker.x, "x"),
      y: place(marker.y, "y"),
      size: fontSize,
      sides: marker.sides ?? (["above-right", "right", "above-left"] as const),
      color: colors.ink,
    })),
    ...(region === null ? [] : regionLabel(region, input, place, frame)),
    ...rules.map((rule) => ({
      text: rule.text,
      x: place(rule.x, "x"),
      y: frame.top + 8,
      // Anywhere along it, so that it stays beside it.
      also: [0.2, 0.35, 0.5, 0.65, 0.8].map((share) => ({
        x: place(rule.x, "x"),
        y: frame.top + share * (frame.bottom - frame.top),
      })),
      size: fontSize,
      sides: ["left", "right"] as const,
      joined: false,
      color: colors.soft,
    })),
  ].filter((label) => label.text !== "");
  const placed = placeLabels(wanted, { frame, traces: [...traces, ...drops, ...lines], taken: dots });
  for (const label of placed) if (label.leader !== null) leader(svg, label.leader, colors.soft);
  for (const [i, label] of placed.entries()) {
    const color = wanted[i]?.color ?? colors.ink;
    const said = text(svg, label.text, label.x, label.y, "start", color, colors.ground);
    said.setAttribute("class", atRest);
  }
}

/** Distance of two names [px]. */
const nameStep = 15;

/** Names stand beside the last point in sight, pushed apart from top to bottom and back into the frame. */
function endNames(curves: readonly Curve[], traces: readonly Trace[], frame: Box) {
  const names = curves.flatMap(({ name }, index) => {
    const last = traces[index]?.findLast((point) => point !== null && point.x <= frame.right + 1);
    if (name === "" || !last) return [];
    return [{ text: name, index, y: Math.min(Math.max(last.y, frame.top), frame.bottom) }];
  });
  names.sort((a, b) => a.y - b.y);
  for (const [i, name] of names.entries()) {
    const above = names[i - 1];
    if (above !== undefined) name.y = Math.max(name.y, above.y + nameStep);
  }
  const over = (names.at(-1)?.y ?? 0) - frame.bottom;
  if (over > 0)
    for (let i = names.length - 1, limit = frame.bottom; i >= 0; i--, limit -= nameStep) {
      const name = names[i];
      if (name !== undefined) name.y = Math.min(name.y, limit);
    }
  return names;
}

/** At any corner of the region; nowhere if it lies out of sight. */
function regionLabel(
  region: Region,
  { x, y, colors }: CurveFigureInput,
  place: (value: number, axis: "x" | "y") => number,
  frame: Box,
): (Wanted & { readonly color: string })[] {
  const seen = (range: readonly [number, number], { domain }: Axis) => range[0] < domain[1] && range[1] > domain[0];
  if (!seen(region.x, x) || !seen(region.y, y)) return [];
  const left = Math.max(place(region.x[0], "x"), frame.left);
  const right = Math.min(place(region.x[1], "x"), frame.right);
  const top = Math.max(place(region.y[1], "y"), frame.top);
  const bottom = Math.min(place(region.y[0], "y"), frame.bottom);
  return [
    {
      text: region.text,
      ...(region.shorter !== undefined && { shorter: region.shorter }),
      x: left,
      y: top,
      also: [
        { x: left, y: bottom },
        { x: right, y: top },
        { x: right, y: bottom },
        { x: (left + right) / 2, y: top },
        { x: (left + right) / 2, y: bottom },
      ],
      size: fontSize,
      sides: ["above-right", "below-right", "above-left", "below-left"] as const,
      onlySides: true,
      joined: false,
      color: colors.soft,
    },
  ];
}

/** A thin line from a label that had to move away to what it names. */
function leader(svg: SVGSVGElement, { from, to }: Leader, color: string): void {
  const ends = { x1: from.x.toFixed(1), y1: from.y.toFixed(1), x2: to.x.toFixed(1), y2: to.y.toFixed(1) };
  svg.append(mark(svg.ownerDocument, "line", { ...ends, stroke: color, class: atRest }));
}

const around = (x: number, y: number, r: number): Box => ({ left: x - r, right: x + r, top: y - r, bottom: y + r });

/** A text at (x, y) [px]; with a halo, so that a line under it is not read with it. */
function text(
  svg: SVGSVGElement,
  said: string,
  x: number,
  y: number,
  anchor: "start" | "middle" | "end",
  color: string,
  halo: string | null = null,
): SVGTextElement {
  const element = mark(svg.ownerDocument, "text", {
    x: x.toFixed(1),
    y: y.toFixed(1),
    "text-anchor": anchor,
    fill: color,
    ...(halo !== null && { stroke: halo, "stroke-width": 3, "stroke-linejoin": "round", "paint-order": "stroke" }),
  });
  element.textContent = said;
  svg.append(element);
  return element;
}
