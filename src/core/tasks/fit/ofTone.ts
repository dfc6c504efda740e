/** Ring-downs and responses: a table to a resonance and its damping. */
import { answer, type Outcome } from "../../problem.ts";
import { fitFreeReadout } from "../../reading/freeReadout.ts";
import { fitResponse } from "../../reading/response.ts";
import { fitRingDown, type RingDown } from "../../reading/ringDown.ts";
import type { RecordTable } from "../../record/table.ts";
import { type FitOptions, only, type Part } from "./fitKinds.ts";
import { evenSignal, type ResponseSignal, responseSignal } from "./signal.ts";

export function ofRingDown(
  table: RecordTable,
  { channel, calibration, from, to, modes, near }: FitOptions,
): Outcome<Part> {
  const curve = calibration === "free" ? undefined : calibration;
  const signal = evenSignal(
    table,
    only<{ channel: number; calibration: { low: number; high: number } }>({ channel, calibration: curve }),
  );
  if (!signal.ok) return signal;
  const { y, step, start, clippedUntil, unit } = signal.value;
  const read = fitRingDown({
    y,
    step,
    start,
    clippedUntil,
    ...only<{ from: number; to: number; modes: number; near: number }>({ from, to, modes, near }),
  });
  if (!read.ok) return read;
  const free = calibration === "free" ? throughCurve(y, step, read.value) : null;
  if (free !== null && !free.ok) return free;
  const reading = free === null ? read.value : free.value;
  const { used, model } = reading;
  const measured = y.slice(used.first, used.first + model.length);
  const x = measured.map((_, i) => start + (used.first + i) * step);
  return answer({ reading, curve: { axis: "time", x, measured, model, unit } }, [
    ...signal.remarks,
    ...(free === null ? read.remarks : free.remarks),
  ]);
}

const throughCurve = (y: Float64Array, step: number, before: RingDown) =>
  fitFreeReadout(y.slice(before.used.first, before.used.first + before.model.length), step, before);

export function ofResponse(table: RecordTable, options: FitOptions): Outcome<Part> {
  const signal = responseSignal(table);
  return signal.ok ? fittedResponse(signal.value, options) : signal;
}

/** `unshown`: see `ResponseQuestion`. */
export function fittedResponse(
  signal: ResponseSignal,
  { from, to, modes, near }: FitOptions,
  unshown: "refused" | "remarked" = "refused",
): Outcome<Part> {
  const read = fitResponse({
    ...signal,
    unshown,
    ...only<{ from: number; to: number; sections: number; near: number }>({ from, to, sections: modes, near }),
  });
  if (!read.ok) return read;
  const { frequency, re, im } = read.value.model;
  const size = (i: number) => Math.hypot(signal.re[i]!, signal.im?.[i] ?? 0);
  const places = new Map(Array.from(signal.frequency, (f, i) => [f, i]));
  // The fit ordered its points by frequency; each is found again by it.
  const measured = frequency.map((f) => size(places.get(f) ?? nearest(signal.frequency, f)));
  return answer(
    {
      reading: read.value,
      curve: {
        axis: "frequency",
        x: frequency,
        measured,
        model: re.map((value, i) => Math.hypot(value, im[i]!)),
        unit: "",
      },
    },
    read.remarks,
  );
}

function nearest(list: Float64Array, value: number): number {
  let best = 0;
  list.forEach((one, i) => {
    if (Math.abs(one - value) < Math.abs(list[best]! - value)) best = i;
  });
  return best;
}
