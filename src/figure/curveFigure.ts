/** Curves over one axis, as SVG, in a page and in Node. It only draws: no smoothing, no fitting, no hidden logarithm. */
import type { Axis } from "./axis.ts";
import { type Colors, dashes } from "./colors.ts";
import type { Area, Curve, CurveFigureInput, Region } from "./curveInput.ts";
import { atRest, nameWidth, writeLabels } from "./curveLabels.ts";
import { pathData, type Scale, scaleOf, traceOf } from "./curvePath.ts";
import { type Box, type Trace, textWidth } from "./labels.ts";
import { group, lines, mark, seenThrough } from "./marks.ts";
import { fontSize, margins, sheet } from "./sheet.ts";

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
  const svg = sheet(document, { width, height }, input);
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
  writeLabels(svg, { ...input, markers, rules, region }, { frame, xScale, yScale, longest });
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
