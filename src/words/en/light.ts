/** Texts of the Light page. */
import { formatNumber, formatQuantity } from "../../core/quantity/format.ts";
import type { GuideView } from "../../core/tasks/light/guideView.ts";
import type { Held, ModeWindow } from "../../core/tasks/light/modeWindow.ts";
import type { LightAnswer } from "../../core/tasks/predict/light.ts";
import type { Prediction } from "../../core/tasks/predict/prediction.ts";

const length = (value: number) => formatQuantity(value, "length", { digits: 3 });
const angle = (value: number) => formatQuantity(value, "angle", { digits: 3 });
const number = (value: number, digits = 3) => formatNumber(value, { digits });

export const lightWords = {
  readout: "Readout",
  readoutAside: "phase to light on the detectors",
  transfer: "Transfer curve",
  ring: "Bias: drag, or step by a degree with the arrow keys, ten with Shift",
  less: "1° less",
  more: "1° more",
  drift: "Bias and its drift",
  where: "Where to work",
  whereWhat: "the bias",
  whereAside: "the bias, and what makes it",
  ownPhase: "Own phase of the guide",
  quarter: "Work at the best slope",
  take: {
    bias: (says: string) => `Hold the bias at ${says}`,
    length: (says: string) => `Make the guide ${says} long`,
    computed: "Let the guide make the bias",
  },
  parts: {
    wavePlate: ["Add a wave plate", "Take the wave plate out"],
    servo: ["Add a servo", "Take the servo out"],
  },
  otherReadout: "The other readouts",
  otherAside: "the same device, read another way",
  otherWhat: "the other readouts",
  columns: {
    readout: "Readout",
    sensitivity: "Sensitivity",
    slope: "Slope",
    drift: "Drift a kelvin",
    step: "1 dB less after",
  },
  kinds: {
    now: "as it is",
    polarimetric: "polarimeter",
    TE: "interferometer, TE",
    TM: "interferometer, TM",
  },
  take2: "Read it so",
  guides: "Guides",
  guidesAside: "outputs summed with their weights",
  addGuide: "Add one, of the other sign",
  removeGuide: "Take the last one out",
  guideColumns: {
    guide: "Guide",
    at: "Position",
    weight: "Weight",
    depth: "Depth",
    bias: "Bias",
    drift: "Drift a kelvin",
  },
  sum: "weighted sum",
  howMade: "How it is made",
  ways: {
    hand: "depth given by hand",
    bath: "ion exchange",
    graded: "graded profile",
    step: "step",
    layered: "layers",
  },
  layer: (index: number) => `Layer ${index + 1} from the face`,
  addLayer: "Add a layer",
  removeLayer: "Take the last layer out",
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
    "To have depth, width and birefringence from the guide itself, say how it is made. Values given by hand then go.",
  timeAside: "one mode, and the largest phase per pascal times the root of the light that gets in",
  best: (says: string) => `Best: ${says}.`,
  noBest: "At none of these times does the guide hold one mode: widen or narrow the window, or change the bath.",
  takeTime: (says: string) => `Take ${says}`,
  bathOnly: "A guide from a bath has a time to choose; this one has none.",
  count: "counting modes",
  axis: { time: "Time in the bath (h)", depth: "Depth (µm)", width: "Width (µm)" } satisfies Record<
    ModeWindow["kind"],
    string
  >,
  wavelengthAxis: "Wavelength (nm)",
  now: "now",
  windowSays: "Where the guide holds no mode, one of each polarization, or several, over wavelength and size.",
};

/** Lines of label and value about the bias. */
export function driftRows(light: LightAnswer): readonly { readonly name: string; readonly value: string }[] {
  const { drift, coherence } = light;
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

/** Lines about the bias in use and the best one, and what of the guide would make each. */
export function whereRows(light: LightAnswer): readonly { readonly name: string; readonly value: string }[] {
  const [first] = light.guides;
  const own = (first?.bias.atRest ?? 0) + (first?.bias.load ?? 0);
  const turn = 2 * Math.PI;
  const turns = Math.floor(own / turn);
  return [
    {
      name: lightWords.ownPhase,
      value: turns === 0 ? angle(own) : `${turns} turns and ${angle(own - turns * turn)}`,
    },
    ...(first && first.bias.stress !== 0
      ? [{ name: "of it from built-in stress", value: angle(first.bias.stress) }]
      : []),
    ...(first && first.bias.load !== 0 ? [{ name: "of it from the static load", value: angle(first.bias.load) }] : []),
    ...[
      { at: light.present, called: isBest(light) ? "The bias in use, the best nearby" : "The bias in use" },
      ...(isBest(light) ? [] : [{ at: light.choose, called: "The best slope nearby" }]),
    ].map(({ at, called }) => ({ name: `${called}, ${angle(at.bias)}`, value: made(at) })),
  ];
}

/** Whether the bias in use is the best nearby, to a thousandth of a radian. */
export const isBest = ({ present, choose }: LightAnswer): boolean => Math.abs(present.bias - choose.bias) < 1e-3;

/** "the guide makes it with 0.12 mm more guide, or 3.1 K less" */
function made({ lengthChange, temperatureChange }: LightAnswer["present"]): string {
  const signed = (value: number, text: (size: number) => string) =>
    `${text(Math.abs(value))} ${value < 0 ? "less" : "more"}`;
  const ways = [
    ...(lengthChange === null ? [] : [`${signed(lengthChange, length)} guide`]),
    ...(temperatureChange === null ? [] : [`${signed(temperatureChange, (size) => `${number(size)} K`)}`]),
  ];
  if (ways.length === 0) return "neither length nor temperature moves it";
  const still = Math.abs(lengthChange ?? temperatureChange ?? 1) < 1e-9;
  return still ? "the guide makes it as it is" : `the guide makes it with ${ways.join(", or ")}`;
}

/** What a readout of the same device gives, in the columns of `columns`. */
export function readoutRow({ light, sensitivity }: Prediction): readonly string[] {
  const { temperature } = light.drift.stepForOneDb;
  return [
    formatQuantity(sensitivity.magnitude, "phaseSensitivity", { digits: 3 }),
    `${number(light.slope)} 1/rad`,
    angle(light.drift.perKelvin),
    temperature === null ? "–" : formatQuantity(temperature, "temperatureDifference", { digits: 2 }),
  ];
}

/** "TE: mean depth 2.3 µm, 5.1 µm wide, 4.2 µm high" */
export const pictureText = (title: string, mode: GuideView["modes"]["te"], bar: number): string =>
  `${title}. Mean depth ${length(mode.depth)}, ${length(mode.width)} wide, ${length(mode.height)} high; the line is the face, the bar ${formatQuantity(bar, "length", { digits: 1 })}.`;
