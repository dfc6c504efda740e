/** Figures of the light: transfer curve with its operating point, index profile, contours of a mode. */
import { contours } from "d3-contour";
import { outputCurve } from "../core/parts/readout/operating.ts";
import { portPower } from "../core/parts/readout/transfer.ts";
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import type { ExchangeTime } from "../core/tasks/light/exchangeTime.ts";
import type { GuideView } from "../core/tasks/light/guideView.ts";
import type { LightAnswer } from "../core/tasks/predict/light.ts";
import { linearAxis, logAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { FigureRoom } from "./responseFigures.ts";
import type { Column } from "./tables.ts";

const degree = Math.PI / 180;

/** Output against phase, one turn around the bias [degrees]. */
function transferCurve(
  light: LightAnswer,
  outputs: "one" | "both",
): { readonly x: readonly number[]; readonly y: readonly number[] } {
  const curve = outputCurve(light.transfer, outputs);
  const middle = light.bias / degree;
  const x = Array.from({ length: 181 }, (_, i) => middle + 2 * (i - 90));
  return { x, y: x.map((phase) => portPower(curve, phase * degree)) };
}

/** Output at a phase [degrees]. */
export const outputAt = (light: LightAnswer, outputs: "one" | "both", phase: number): number =>
  portPower(outputCurve(light.transfer, outputs), phase * degree);

export const sayTransfer = (x: number, y: number | null): string =>
  `${formatNumber(x, { digits: 4 })}°: ${y === null ? "–" : formatNumber(y, { digits: 3 })}`;

export function transferFigure(light: LightAnswer, outputs: "one" | "both", room: FigureRoom): Figure {
  const { x, y } = transferCurve(light, outputs);
  const heights: readonly [number, number] = outputs === "one" ? [0, 1.05] : [-1.1, 1.1];
  const at = light.bias / degree;
  const { site } = light.drift;
  const ends = site ? site.bias.map((one) => one / degree).sort((a, b) => a - b) : [];
  // What a servo holds is no band.
  const band = (ends[1] ?? 0) - (ends[0] ?? 0) > 0.5 ? ends : null;
  const [from, to] = [x[0] ?? 0, x.at(-1) ?? 0];
  return curveFigure({
    ...room,
    description: "Output against the phase between the two fields, with the operating point at rest.",
    x: linearAxis("Phase at rest (degrees)", [from, to], { count: 4, step: room.width < 360 ? 90 : 45, tight: true }),
    y: linearAxis(
      outputs === "one" ? "First port, share of the light" : "First less second port, share of the light",
      [...heights],
      {
        count: 5,
        step: outputs === "one" ? 0.25 : 0.5,
        tight: true,
      },
    ),
    curves: [{ name: "", x, y }],
    markers: [{ x: at, y: portPower(outputCurve(light.transfer, outputs), light.bias), text: "", dropped: true }],
    region: band
      ? {
          x: [Math.max(from, band[0] ?? from), Math.min(to, band[1] ?? to)],
          y: [...heights],
          text: "over the site's temperatures",
          shorter: "at the site",
        }
      : null,
  });
}

export const transferColumns = (light: LightAnswer, outputs: "one" | "both"): readonly Column[] => {
  const { x, y } = transferCurve(light, outputs);
  const text = (value: number | null) => formatNumber(value, { digits: 4 });
  return [
    { title: "Phase (degrees)", values: x, text },
    { title: "Output (share of the light)", values: y, text },
  ];
};

export function profileFigure({ profile, base }: GuideView, room: FigureRoom): Figure {
  const all = [...profile.te, ...profile.tm, base];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const edge = 0.08 * (high - low);
  return curveFigure({
    ...room,
    description: "Refractive index against depth under the face, for both fields.",
    x: linearAxis("Depth (µm)", [0, (profile.z.at(-1) ?? 0) * 1e6], {
      count: Math.max(3, Math.floor(room.width / 90)),
    }),
    y: linearAxis("Index", [low - edge, high + edge], { count: 5 }),
    curves: [
      { name: "TE", x: profile.z.map((z) => z * 1e6), y: profile.te },
      { name: "TM", x: profile.z.map((z) => z * 1e6), y: profile.tm },
    ],
  });
}

export const sayProfile = (x: number, y: number | null): string =>
  `${formatNumber(x, { digits: 3 })} µm: ${y === null ? "–" : formatNumber(y, { digits: 6 })}`;

export function profileColumns({ profile }: GuideView): readonly Column[] {
  const index = (value: number | null) => formatNumber(value, { digits: 7 });
  return [
    { title: "Depth", values: profile.z, text: (z) => (z === null ? "" : formatQuantity(z, "length", { digits: 3 })) },
    { title: "Index, TE", values: profile.te, text: index },
    { title: "Index, TM", values: profile.tm, text: index },
  ];
}

/** Shares of the brightest spot at which a mode is drawn. */
const contourShares = [0.05, 0.135, 0.3, 0.5, 0.7, 0.9] as const;

/** Contours of a mode as SVG paths in [m], x across and z inward. */
export function modeContours(picture: GuideView["te"]): readonly { readonly share: number; readonly path: string }[] {
  const { x, z, intensity } = picture;
  const [columns, rows] = [x.length, z.length];
  const at = (values: readonly number[], index: number) => {
    const [from, to] = [values[0] ?? 0, values.at(-1) ?? 0];
    return from + ((to - from) * (index - 0.5)) / (values.length - 1);
  };
  const shapes = contours()
    .size([columns, rows])
    .thresholds([...contourShares])([...intensity]);
  return shapes.map(({ value, coordinates }) => ({
    share: value,
    path: coordinates
      .flatMap((polygon) =>
        polygon.map(
          (ring) =>
            `M${ring.map(([i = 0, j = 0]) => `${(at(x, i) * 1e6).toFixed(3)},${(at(z, j) * 1e6).toFixed(3)}`).join("L")}Z`,
        ),
      )
      .join(""),
  }));
}

/** Phase per pascal times the root of the light that gets in, over time in the bath; both in shares of the largest. */
export function exchangeFigure(found: ExchangeTime, present: number, room: FigureRoom): Figure {
  const hours = found.tried.map(({ time }) => time / 3600);
  const [first = 0.1, last = 1] = [hours[0], hours.at(-1)];
  return curveFigure({
    ...room,
    description: "Phase per pascal times the root of the light that gets in, against time in the bath.",
    x: logAxis("Time in the bath (h)", [first, last], { length: room.width }),
    y: linearAxis("Share of the best, where one mode is held", [0, 1.05], { count: 4, step: 0.25, tight: true }),
    curves: [
      { name: "φ·√light", x: hours, y: found.tried.map(({ merit }) => merit) },
      { name: "light", x: hours, y: found.tried.map(({ coupling }) => coupling) },
    ],
    rules: [
      { x: present / 3600, text: "now", color: room.colors.soft },
      ...(found.best === null ? [] : [{ x: found.best / 3600, text: "best", color: room.colors.ink }]),
    ],
  });
}

export function exchangeColumns({ tried }: ExchangeTime): readonly Column[] {
  const number = (value: number | null) => (value === null ? "–" : formatNumber(value, { digits: 3 }));
  return [
    { title: "Time (h)", values: tried.map(({ time }) => time / 3600), text: number },
    {
      title: "Mean depth",
      values: tried.map(({ depth }) => depth),
      text: (value) => (value === null ? "–" : formatQuantity(value, "length", { digits: 3 })),
    },
    { title: "Light into the guide", values: tried.map(({ coupling }) => coupling), text: number },
    { title: "Phase × √light, of the best", values: tried.map(({ merit }) => merit), text: number },
  ];
}
