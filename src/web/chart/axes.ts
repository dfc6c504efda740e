/** The two axes of the plane: which values, between which ends; they stay while the design moves. */
import { createMemo, createSignal } from "solid-js";
import { axisAround, type ChartAxis, findPath, type Project, readQuantity } from "../../core/index.ts";

/** Values that a plane is usually looked at over; any that the project has a positive number for. */
export const axisPaths = [
  "microphone.diaphragm.across",
  "microphone.diaphragm.along",
  "microphone.diaphragm.thickness",
  "microphone.film.gap",
  "microphone.guide.at",
  "microphone.guide.depth",
  "microphone.front.holes[0].diameter",
  "microphone.front.cavity.volume",
  "microphone.back.cavity.volume",
  "microphone.back.vent.diameter",
  "microphone.light.launched",
  "air.pressure",
] as const;

export interface AxisChoice {
  readonly path: () => string;
  readonly axis: () => ChartAxis | null;
  readonly choose: (path: string) => void;
  /** Takes typed ends; false: they can't be taken. */
  readonly setEnds: (from: string, to: string) => boolean;
}

export function createAxis(project: () => Project, first: string): AxisChoice {
  const [path, setPath] = createSignal(first);
  const [ends, setEnds] = createSignal<{ from: number; to: number } | null>(null);
  // The ends are set about the design once, and stay while it moves.
  const around = createMemo<{ path: string; axis: ChartAxis | null }>((before) => {
    const here = path();
    const kept = before?.path === here ? before.axis : null;
    const found = kept === null ? axisAround(project(), here) : null;
    return { path: here, axis: kept ?? (found?.ok ? found.value : null) };
  });
  return {
    path,
    axis: () => {
      const typed = ends();
      const { axis } = around();
      return typed === null ? axis : axis && { ...axis, ...typed };
    },
    choose: (next) => {
      setEnds(null);
      setPath(next);
    },
    setEnds: (from, to) => {
      const place = findPath(path());
      if (!place.ok) return false;
      const [low, high] = [from, to].map((text) => readQuantity(text, place.value.kind, []));
      if (!low?.ok || !high?.ok || !(low.value > 0 && high.value > low.value)) return false;
      setEnds({ from: low.value, to: high.value });
      return true;
    },
  };
}
