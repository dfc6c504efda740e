/** Texts of the Light page. */
import { formatNumber, formatQuantity } from "../../core/quantity/format.ts";
import type { GuideView } from "../../core/tasks/light/guideView.ts";
import type { Held, ModeWindow } from "../../core/tasks/light/modeWindow.ts";
import type { LightAnswer } from "../../core/tasks/predict/light.ts";

const length = (value: number) => formatQuantity(value, "length", { digits: 3 });
const angle = (value: number) => formatQuantity(value, "angle", { digits: 3 });
const number = (value: number, digits = 3) => formatNumber(value, { digits });

export const lightWords = {
  readout: "Readout",
  readoutAside: "phase to light on the detectors",
  transfer: "Transfer curve",
  biasSlider: "Bias: drag, or step with the arrow keys",
  drift: "Bias and its drift",
  guide: "Guide",
  guideAside: "how it is made, and what its light sees",
  profile: "Index down the middle of the guide",
  pictures: "Where the light is",
  te: "TE: field along the face",
  tm: "TM: field across the face",
  face: "face",
  window: "One mode, or several?",
  windowAside: "over wavelength and size",
  against: "Against",
  stop: "Stop",
  goOn: "Go on",
  depthAxis: "time or depth",
  widthAxis: "width",
  time: "How long in the bath?",
  what: "the modes of the guide",
  windowWhat: "the window of one mode",
  timeWhat: "the times",
  held: { 0: "no mode", 1: "one mode", 2: "several modes" } satisfies Record<Held, string>,
  byHand:
    "The depth of the mode is given by hand. To have it from the guide itself, give a profile or a process; depth, width and birefringence then follow.",
  makeBath: "Make the guide by ion exchange",
  caution:
    "Molten salt burns, feeds fire and spits where water or organic matter gets in; dry everything, keep acids, fuels and people without face shield, apron and heat-proof gloves away, work under a hood. Etching with hydrofluoric acid needs trained people, calcium gluconate gel at hand and medical help for any contact, pain or not. Your local rules, the safety data sheets (ISO 11014) and, for the laser at the fiber's end, IEC 60825-1 come first.",
  axis: { time: "Time in the bath", depth: "Depth", width: "Width" } satisfies Record<ModeWindow["kind"], string>,
};

/** Lines of label and value about the bias. */
export function driftRows(light: LightAnswer): readonly { readonly name: string; readonly value: string }[] {
  const { drift, choose, coherence } = light;
  const { temperature, wavelength, stress } = drift.stepForOneDb;
  return [
    { name: "Bias", value: `${angle(light.bias)} (${light.biasFrom})` },
    { name: "Contrast", value: number(light.visibility) },
    { name: "Slope", value: `${number(light.slope)} 1/rad, ${number(100 * light.quadrature)} % of the best` },
    ...(light.power
      ? [
          {
            name: "Light on the detectors",
            value: `${formatQuantity(light.power.first, "power", { digits: 3 })} and ${formatQuantity(light.power.second, "power", { digits: 3 })}`,
          },
        ]
      : []),
    ...light.distortion.map(({ share, amplitude, level }) => ({
      name: `Distortion ${number(100 * share, 1)} % from`,
      value:
        amplitude === null
          ? "any sound: no linear signal"
          : `${number(amplitude)} rad${level === null ? "" : `, ${formatQuantity(level, "decibel", { digits: 4 })}`} (cosine alone)`,
    })),
    { name: "Drift", value: `${angle(drift.perKelvin)} a kelvin` },
    ...(temperature === null
      ? []
      : [
          { name: "1 dB less slope after", value: formatQuantity(temperature, "temperatureDifference", { digits: 2 }) },
        ]),
    ...(wavelength === null ? [] : [{ name: "or a wavelength off by", value: length(wavelength) }]),
    ...(stress === null
      ? []
      : [{ name: "or a mount's stress of", value: formatQuantity(stress, "modulus", { digits: 2 }) }]),
    ...(drift.site
      ? [
          {
            name: "Over the site's temperatures",
            value: `${angle(drift.site.bias[0])} to ${angle(drift.site.bias[1])}, slope ${drift.site.leastSlopeDb < -60 ? "through its null" : `${number(drift.site.leastSlopeDb, 2)} dB at worst`}`,
          },
        ]
      : []),
    { name: "Best bias nearby", value: angle(choose.bias) },
    ...(choose.lengthChange === null
      ? []
      : [{ name: "by another length of guide", value: `${length(choose.lengthChange)} more` }]),
    ...(choose.temperatureChange === null
      ? []
      : [{ name: "or another temperature", value: `${number(choose.temperatureChange)} K more` }]),
    ...(coherence
      ? [
          {
            name: "Coherence",
            value: `${number(100 * coherence.contrast, 4)} % of the contrast over ${length(Math.abs(light.pathDifference))}`,
          },
        ]
      : []),
  ];
}

/** Lines about the modes. */
export function modeRows({ modes, coupling }: GuideView): readonly { readonly name: string; readonly value: string }[] {
  const { te, tm, count, change } = modes;
  const both = (of: (mode: typeof te) => string) => `${of(te)} (TE), ${of(tm)} (TM)`;
  return [
    { name: "Effective index", value: both(({ index }) => index.toFixed(6)) },
    { name: "Birefringence", value: number(tm.index - te.index) },
    { name: "Mean depth", value: both(({ depth }) => length(depth)) },
    { name: "Width, height", value: both(({ width, height }) => `${length(width)} by ${length(height)}`) },
    { name: "Modes held", value: `${count.te} TE, ${count.tm} TM` },
    ...(coupling
      ? [
          {
            name: "From the fiber",
            value: `${number(100 * coupling.te)} % (TE), ${number(100 * coupling.tm)} % (TM), fiber ${length(coupling.depth)} deep`,
          },
        ]
      : []),
    { name: "Resolved", value: `index moves by ${number(change, 1)} on a coarser grid; one field component` },
  ];
}
