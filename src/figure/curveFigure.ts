/** Curves over one axis, as SVG, in a page and in Node. It only draws: no smoothing, no fitting, no hidden logarithm. */
import type { Axis } from "./axis.ts";
import { type Colors, dashes } from "./colors.ts";
import { pathData, type Scale, scaleOf, traceOf } from "./curvePath.ts";
import { type Box, type Leader, placeLabels, type Side, type Trace, textWidth, type Wanted } from "./labels.ts";
import { group, lines, mark, seenThrough } from "./marks.ts";

export interface Curve {
  /** Written at the end of the curve; empty where there is only one. */
  readonly name: string;
  readonly x: readonly number[];
  /** null: a gap. */
  readonly y: readonly (number | null)[];
}

export interface Marker {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  /** A line down to the axis. */
  readonly dropped?: boolean;
  readonly sides?: readonly Side[];
  /** One of many: a ring in soft ink. */
  readonly quiet?: boolean;
}

/** A requirement: the area where the curve has to stay. */
export interface Region {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly text: string;
}

/** What lies between two curves, laid under them all; named at its lower end on the right. */
export interface Area {
  readonly name: string;
  readonly x: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** A line across the figure at one x. */
export interface Rule {
  readonly x: number;
  readonly text: string;
  readonly color: string;
}

/** The part of the axes that is looked at; an axis that is missing shows everything. */
export interface View {
  readonly x?: readonly [number, number];
  readonly y?: readonly [number, number];
}

export interface CurveFigureInput {
  readonly document: Document;
  /** Outer size [px]; texts keep their size whatever it is. */
  readonly width: number;
  readonly height: number;
  readonly colors: Colors;
  readonly view?: View | undefined;
  /** What it shows, in a sentence, for those who can't see it. */
  readonly description: string;
  readonly x: Axis;
  readonly y: Axis;
  /** The first one is the present state and lies on top. */
  readonly curves: readonly Curve[];
  readonly markers?: readonly Marker[];
  readonly region?: Region | null;
  readonly rules?: readonly Rule[];
  readonly areas?: readonly Area[];
}

/** A drawn figure that stands still while its first curve moves. */
export interface Figure {
  readonly svg: SVGSVGElement;
  readonly frame: Box;
  readonly x: Axis;
  readonly y: Axis;
  readonly xScale: Scale;
  readonly yScale: Scale;
  readonly curve: Curve;
  /** Gives the first curve other points; what was written beside the old ones goes until the next drawing. */
  readonly move: (x: readonly number[], y: readonly (number | null)[]) => void;
}

/** Room round the axes [px]. */
export const margins = { top: 28, right: 14, bottom: 42, left: 44 };
export const fontSize = 12;
/** Class of what belongs to the curves as they were drawn. */
const atRest = "at-rest";

export function curveFigure(asked: CurveFigureInput): Figure {
  const input = {
    ...asked,
    x: asked.view?.x === undefined ? asked.x : asked.x.over(asked.view.x),
    y: asked.view?.y === undefined ? asked.y : asked.y.over(asked.view.y),
  };
  const { document, width, height, colors, x, y, curves, region = null } = input;
  const rules = (input.rules ?? []).filter((rule) => inside(rule.x, x));
  const markers = (input.markers ?? []).filter((marker) => inside(marker.x, x) && inside(marker.y, y));
  const left = leftMargin(y);
  const longest = 0.24 * width;
  const areas = input.areas ?? [];
  const right =
    margins.right + [...curves, ...areas].reduce((widest, { name }) => Math.max(widest, nameWidth(name, longest)), 0);
  const frame: Box = { left, right: width - right, top: margins.top, bottom: height - margins.bottom };
  const xScale = scaleOf(x, frame.left, frame.right);
  const yScale = scaleOf(y, frame.bottom, frame.top);
  const svg = mark(document, "svg", { width, height, viewBox: `0 0 ${width} ${height}` });
  const across = (value: number) => [frame.left, yScale.place(value), frame.right, yScale.place(value)] as const;
  const up = (value: number, to = frame.top) => [xScale.place(value), frame.bottom, xScale.place(value), to] as const;
  const line = (d: string, attributes: Readonly<Record<string, string | number>>) =>
    mark(document, "path", { d, fill: "none", ...attributes });
  const zero = y.domain[0] < 0 && y.domain[1] > 0 && y.scale === "linear";
  svg.append(
    ...(region === null ? [] : [regionMark(region, input, xScale, yScale)]),
    line(lines([...[...x.minor, ...x.ticks].map((value) => up(value)), ...y.ticks.map(across)]), {
      stroke: colors.grid,
    }),
    ...(zero ? [line(lines([across(0)]), { stroke: colors.hairline })] : []),
    ...rules.map((rule) =>
      line(lines([up(rule.x)]), { class: `${atRest} rule`, stroke: rule.color, "stroke-width": 1.25 }),
    ),
    ...markers
      .filter(({ dropped }) => dropped === true)
      .map((marker) =>
        line(lines([up(marker.x, yScale.place(marker.y))]), {
          class: `${atRest} drop`,
          stroke: colors.soft,
          "stroke-dasharray": "2 3",
        }),
      ),
    seenThrough(
      document,
      frame,
      ...areas.map((area) => areaMark(area, input, xScale, yScale)),
      ...curves.map((curve, i) => curveMark(document, traceOf(curve.x, curve.y, xScale, yScale), i, colors)).reverse(),
    ),
    ...markers.map((marker) =>
      mark(document, "circle", {
        class: `${atRest} dot`,
        cx: xScale.place(marker.x),
        cy: yScale.place(marker.y),
        r: marker.quiet === true ? 2.5 : 3.5,
        ...(marker.quiet === true ? { fill: "none", stroke: colors.soft } : { fill: colors.ink }),
      }),
    ),
  );
  dress(svg, input);
  write(svg, { ...input, markers, rules, region }, { frame, xScale, yScale, longest });
  const moving = svg.querySelector<SVGPathElement>(".curve-1 path");
  return {
    svg,
    frame,
    x,
    y,
    xScale,
    yScale,
    curve: curves[0] ?? { name: "", x: [], y: [] },
    move: (xs, ys) => {
      moving?.setAttribute("d", pathData(traceOf(xs, ys, xScale, yScale)));
      for (const old of [...svg.querySelectorAll(`.${atRest}`)]) old.remove();
    },
  };
}

const inside = (value: number, { domain: [low, high] }: Axis): boolean => value >= low && value <= high;

/** Room for the widest tick. */
const leftMargin = (y: Axis): number =>
  y.ticks.reduce((widest, tick) => Math.max(widest, textWidth(y.tickText(tick), fontSize) + 12), margins.left);

/** A name as it fits beside the curves. */
function shortened(name: string, longest: number): string {
  if (textWidth(name, fontSize) <= longest) return name;
  let kept = name;
  while (kept.length > 1 && textWidth(`${kept}…`, fontSize) > longest) kept = kept.slice(0, -1);
  return `${kept.trimEnd()}…`;
}

const nameWidth = (name: string, longest: number): number =>
  name === "" ? 0 : textWidth(shortened(name, longest), fontSize) + 4;

const curveMark = (document: Document, trace: Trace, i: number, colors: Colors): SVGElement =>
  group(
    document,
    {
      class: `curve curve-${i + 1}`,
      fill: "none",
      stroke: colors.series[i % 4] ?? colors.ink,
      "stroke-width": i === 0 ? 1.75 : 1.5,
      "stroke-dasharray": dashes[i % 4] ?? "none",
      "stroke-linejoin": "round",
    },
    mark(document, "path", { d: pathData(trace) }),
  );

function areaMark({ x, low, high }: Area, { document, colors }: CurveFigureInput, xScale: Scale, yScale: Scale) {
  const edge = [...x.map((_, i) => i), ...x.map((_, i) => x.length - 1 - i)];
  const heights = edge.map((i, k) => (k < x.length ? low[i] : high[i]) ?? null);
  const trace = traceOf(
    edge.map((i) => x[i] ?? 0),
    heights,
    xScale,
    yScale,
  );
  return mark(document, "path", { class: "area", d: `${pathData(trace)}Z`, fill: colors.ink, "fill-opacity": 0.1 });
}

/** As far as it lies in sight. */
function regionMark(
  region: Region,
  { document, x, y, colors }: CurveFigureInput,
  xScale: Scale,
  yScale: Scale,
): SVGElement {
  const within = (value: number, { domain: [low, high] }: Axis) => Math.min(Math.max(value, low), high);
  const [left, right] = region.x.map((value) => xScale.place(within(value, x)));
  const [bottom, top] = region.y.map((value) => yScale.place(within(value, y)));
  return mark(document, "rect", {
    x: left ?? 0,
    y: top ?? 0,
    width: Math.max((right ?? 0) - (left ?? 0), 0),
    height: Math.max((bottom ?? 0) - (top ?? 0), 0),
    fill: colors.wanted,
    stroke: colors.hairline,
  });
}

/** Style in attributes only: a page's content security policy forbids style elements, and files need no page. */
function dress(svg: SVGSVGElement, { description, colors }: CurveFigureInput): void {
  svg.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  svg.setAttribute("font-family", "Inter, sans-serif");
  svg.setAttribute("font-size", String(fontSize));
  svg.setAttribute("font-variant", "tabular-nums");
  svg.setAttribute("fill", colors.ink);
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", description);
}

interface Places {
  readonly frame: Box;
  readonly xScale: Scale;
  readonly yScale: Scale;
  /** Longest name of a curve [px]. */
  readonly longest: number;
}

/** Axis labels, then the labels of what is drawn, each where it covers nothing. */
function write(svg: SVGSVGElement, input: CurveFigureInput, { frame, xScale, yScale, longest }: Places): void {
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
      x: left,
      y: top,
      also: [
        { x: left, y: bottom },
        { x: (left + right) / 2, y: top },
        { x: (left + right) / 2, y: bottom },
      ],
      size: fontSize,
      sides: ["above-right", "below-right"] as const,
      onlySides: true,
      joined: false,
      color: colors.soft,
    },
  ];
}

/** A thin line from a label that had to move away to what it names. */
function leader(svg: SVGSVGElement, { from, to }: Leader, color: string): void {
  const line = svg.ownerDocument.createElementNS("http://www.w3.org/2000/svg", "line");
  line.setAttribute("x1", from.x.toFixed(1));
  line.setAttribute("y1", from.y.toFixed(1));
  line.setAttribute("x2", to.x.toFixed(1));
  line.setAttribute("y2", to.y.toFixed(1));
  line.setAttribute("stroke", color);
  line.setAttribute("class", atRest);
  svg.append(line);
}

const around = (x: number, y: number, r: number): Box => ({ left: x - r, right: x + r, top: y - r, bottom: y + r });

function text(
  svg: SVGSVGElement,
  said: string,
  x: number,
  y: number,
  anchor: "start" | "middle" | "end",
  color: string,
  halo: string | null = null,
): SVGTextElement {
  const element = svg.ownerDocument.createElementNS("http://www.w3.org/2000/svg", "text");
  element.setAttribute("x", x.toFixed(1));
  element.setAttribute("y", y.toFixed(1));
  element.setAttribute("text-anchor", anchor);
  element.setAttribute("fill", color);
  if (halo !== null) {
    element.setAttribute("stroke", halo);
    element.setAttribute("stroke-width", "3");
    element.setAttribute("stroke-linejoin", "round");
    element.setAttribute("paint-order", "stroke");
  }
  element.textContent = said;
  svg.append(element);
  return element;
}
