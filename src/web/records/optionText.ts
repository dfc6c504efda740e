/** Options of a fit as they are typed and shown. */
import { type FitOptions, formatQuantity, type Outcome, plainQuantity, readQuantity } from "../../core/index.ts";

/** What of the options is told anew; undefined: taken back. */
export type Change = { readonly [K in keyof FitOptions]?: FitOptions[K] | undefined };

/** A share as "0.5 %"; empty where nothing is said. */
export const percent = (share: number | undefined): string =>
  share === undefined ? "" : `${Number((100 * share).toPrecision(4))} %`;

/** A setting of a sweep in whatever unit its axis has. */
export const setting = (text: string): number | undefined =>
  (["angle", "temperature", "length", "number"] as const)
    .map((kind) => taken(readQuantity(text, kind, [])))
    .find((value) => value !== undefined);

/** "2 cm^3 + 0.1 cm^3": volume and what the microphone adds. */
export function coupler(text: string): FitOptions["coupler"] {
  const [volume, added] = text.split("+").map((part) => taken(readQuantity(part.trim(), "volume", [])));
  return volume === undefined || added === undefined || !(volume > 0) ? undefined : { volume, added };
}

export const couplerText = (given: FitOptions["coupler"]) =>
  given === undefined ? "" : [given.volume, given.added].map((volume) => plainQuantity(volume, "volume")).join(" + ");

/** What could be read; undefined: nothing. */
export const taken = <T>(outcome: Outcome<T>): T | undefined => (outcome.ok ? outcome.value : undefined);

/** An end of the readout's curve [V]; empty where nothing is said. */
export const formatEnd = (value: number | undefined) =>
  value === undefined ? "" : formatQuantity(value, "voltage", { digits: 6 });
