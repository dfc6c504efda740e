/** What the heading of a column says: its unit and what it holds. */
import { isUnit } from "../quantity/read.ts";
import type { ColumnMeaning } from "./recipe.ts";

/** Words for units that instruments write. */
const unitWords: Readonly<Record<string, string>> = {
  sec: "s",
  secs: "s",
  second: "s",
  seconds: "s",
  sekunden: "s",
  msec: "ms",
  usec: "us",
  nsec: "ns",
  volt: "V",
  volts: "V",
  millivolt: "mV",
  millivolts: "mV",
  mvolt: "mV",
  mvolts: "mV",
  hertz: "Hz",
  hz: "Hz",
  khz: "kHz",
  mhz: "MHz",
  degree: "deg",
  degrees: "deg",
  radian: "rad",
  radians: "rad",
  pascal: "Pa",
  db: "dB",
  dbv: "dB",
  volt_peak: "V",
};

/** The unit of a text that is nothing but a unit: "ms", "(V)", "[Hz]", "volts"; null where it is none. */
export function unitAlone(text: string): string | null {
  const bare = text
    .trim()
    .replace(/^[[({<]\s*|\s*[\])}>]$/g, "")
    .trim();
  if (bare === "") return null;
  const word = unitWords[bare.toLowerCase()];
  // "dB re 1 V/Pa", "dBFS": a level, whatever it refers to.
  if (/^dB(\b|[A-Z])/.test(bare)) return "dB";
  // Capital letters tell mHz from MHz: only words and lower-case slips are looked up.
  if (isUnit(bare)) return bare;
  return word ?? null;
}

/** Unit in a heading: "Time (ms)", "U [V]", "t / us", "phase_rad", "Voltage in mV", "Frequency, Hz". */
export function unitInHeading(heading: string): string | null {
  const patterns = [
    /[[({<]([^\])}>]+)[\])}>]\s*$/,
    /\s+in\s+(\S+)\s*$/i,
    /\s*\/\s*([^/]+)$/,
    /[,;:]\s*(\S+)\s*$/,
    /_([A-Za-z]+)$/,
    /\s(\S+)$/,
  ];
  for (const pattern of patterns) {
    const found = pattern.exec(heading)?.[1];
    const unit = found === undefined ? null : unitAlone(found);
    if (unit !== null) return unit;
  }
  // "volts", "seconds": a word that is nothing but a unit.
  return unitWords[heading.trim().toLowerCase()] ?? null;
}

/** In order: the first that fits says what the column is. */
const words: readonly (readonly [RegExp, ColumnMeaning])[] = [
  [/^ *(samples?|index|no|nr|row|points?|count)( *(no|nr|number|index))? *#? *$/, "skip"],
  [/^ *y *$/, "y"],
  [/^ *x\d+ *$/, "x"],
  [/\bdark\b|blocked|light off/, "dark"],
  [/(one|single) mode/, "oneMode"],
  [/field (is )?off/, "fieldOff"],
  [/field (is )?on\b/, "fieldOn"],
  [/plugged|hole closed/, "plugged"],
  [/\bplus\b|\+ ?90/, "plus"],
  [/\bminus\b|[-−] ?90/, "minus"],
  [/coher|\bgamma2\b|\bcoh\b/, "coherence"],
  [/\b(std|stdev|sigma|uncert\w*|standard|error|err|u\()/, "standard"],
  [/damp|zeta|\bd[aä]mpfung/, "dampingRatio"],
  [/reson|\bf_?0\b|\beigen/, "resonance"],
  [/time|zeit|\bt\b|\btemps\b|\btijd\b|second|elapsed/, "time"],
  [/freq|\bf\b|\bhz\b|hertz/, "frequency"],
  [/\bre(al)?\b|_re\b|real/, "real"],
  [/\bim(ag)?\b|_im\b|imag/, "imaginary"],
  [/phase|\bphi\b|\barg\b|\bangle\b|winkel/, "phase"],
  [/\bref|reference|mic(rophone)? ?2|calibrat/, "reference"],
  [/sensitiv/, "sensitivity"],
  [/position|\bpos\b|offset from|\bx\b/, "position"],
  [/thick|\bdicke\b|\bh\b/, "thickness"],
  [/side|\ba\b|breadth/, "side"],
  [/gap|\bfilm\b|\bspalt\b/, "gap"],
  [/bias|retard/, "bias"],
  [/analy[sz]er/, "analyzer"],
  [/compensator/, "compensator"],
  [/temperature|\btemp\b/, "temperature"],
  [/wavelength|\blambda\b/, "wavelength"],
  [/specimen|\bgroup\b/, "group"],
  [/level|gain|\bdb\b|pegel/, "level"],
  [/magn|\bampl|\babs\b|\bmod/, "magnitude"],
  [
    /out|ch(annel)?[ _]?\d|\bch\b|volt|signal|kanal|trace|\bu\b|\bv\b|left|right|detector|diode|response|sensor/,
    "output",
  ],
];

/** What a heading means by its words; null where they say nothing. */
export function meaningOfHeading(heading: string): ColumnMeaning | null {
  // A unit in brackets says nothing of the meaning: the "re" of "dB re 1 V" is no real part.
  const bare = heading.replace(/[[({<]([^\])}>]+)[\])}>]\s*$/, (all, inner) => (unitAlone(inner) === null ? all : " "));
  const text = (bare.trim() === "" ? heading : bare).toLowerCase().replace(/[_.]|-(?!\d)/g, " ");
  return words.find(([pattern]) => pattern.test(text))?.[1] ?? null;
}

/** What a unit alone lets one guess; null where several are possible. */
export function meaningOfUnit(unit: string): ColumnMeaning | null {
  if (/^(n|u|m)?s$|^min$|^h$/.test(unit)) return "time";
  if (/Hz$/.test(unit) && !unit.includes("/")) return "frequency";
  if (unit === "deg") return "phase";
  if (unit === "dB") return "level";
  if (/^(n|u|m)?V$|^(n|u|m)?rad$|^(u|m|k)?Pa$|^(n|u|m)?A$|^(u|m)?W$/.test(unit)) return "output";
  return null;
}
