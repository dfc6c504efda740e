/** Ten records as ten instruments would write them: one device, one damping ratio, ten shapes of file. */
import { WaveFile } from "wavefile";

/** Invented: 9,140 Hz, damping ratio 0.0312, noise of 1 %. */
export const truth = { frequency: 9140, dampingRatio: 0.0312 };

/** A plain generator of uniform numbers, summed to something like normal ones. */
export function noise(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return state / 4294967296;
  };
  return () => Array.from({ length: 12 }, uniform).reduce((sum, value) => sum + value, -6);
}

export function ringing(seed: number, sampling: number, seconds: number, before = 0) {
  const draw = noise(seed);
  const omega = 2 * Math.PI * truth.frequency;
  const first = -Math.round(before * sampling);
  const count = Math.round(seconds * sampling) - first;
  return Array.from({ length: count }, (_, i) => {
    const t = (first + i) / sampling;
    const tone =
      t < 0
        ? Math.cos(omega * t)
        : Math.exp(-truth.dampingRatio * omega * t) * Math.cos(Math.sqrt(1 - truth.dampingRatio ** 2) * omega * t);
    return { t, u: tone + 0.01 * draw() };
  });
}

function sweeping(seed: number) {
  const draw = noise(seed);
  return Array.from({ length: 121 }, (_, i) => {
    const f = 8000 + 20 * i;
    const [re, im] = [1 - (f / truth.frequency) ** 2, (2 * truth.dampingRatio * f) / truth.frequency];
    const squared = re * re + im * im;
    return { f, re: re / squared + 0.1 * draw(), im: -im / squared + 0.1 * draw() };
  });
}

const comma = (text: string) => text.replaceAll(".", ",");

const latin = (text: string) => Buffer.from(text, "latin1");

function wave(): Buffer {
  const file = new WaveFile();
  file.fromScratch(
    1,
    192000,
    "24",
    ringing(7, 192000, 0.004).map(({ u }) => Math.round(u * 4_000_000)),
  );
  return Buffer.from(file.toBuffer());
}

export const files: readonly { readonly name: string; readonly bytes: Buffer }[] = [
  {
    name: "scope.csv",
    bytes: Buffer.from(
      `Model,DX\nSample Interval,2.5E-06,s\n\nTIME,CH1\n${ringing(1, 4e5, 0.004)
        .map(({ t, u }) => `${t.toExponential(6)},${u.toFixed(5)}`)
        .join("\n")}\n`,
    ),
  },
  {
    name: "messung.txt",
    bytes: latin(
      comma(
        `Aufnahme vom Pr\u00fcfstand\r\nZeit;Spannung\r\n(ms);(V)\r\n${ringing(2, 3e5, 0.004, 0.001)
          .map(({ t, u }) => `${(1e3 * t).toFixed(5)};${u.toFixed(5)}`)
          .join("\r\n")}\r\n`,
      ),
    ),
  },
  {
    name: "tabs.txt",
    bytes: Buffer.from(
      `\ufefft [\u00b5s]\tU [mV]\n${ringing(3, 2.5e5, 0.004)
        .map(({ t, u }) => `${(1e6 * t).toFixed(1)}\t${(1e3 * u).toFixed(2)}`)
        .join("\n")}\n`,
      "utf16le",
    ),
  },
  {
    name: "columns.dat",
    bytes: Buffer.from(
      `# sampling rate: 250 kHz\n# one channel\n${ringing(4, 2.5e5, 0.004)
        .map(({ u }) => `  ${u.toExponential(5)}`)
        .join("\n")}\n`,
    ),
  },
  {
    name: "spectrum.csv",
    bytes: Buffer.from(
      `"Frequency (Hz)","Re (V)","Im (V)"\n${sweeping(5)
        .map(({ f, re, im }) => `"${f.toLocaleString("en-US")}",${re.toFixed(5)},${im.toFixed(5)}`)
        .join("\n")}\n`,
    ),
  },
  {
    name: "levels.txt",
    bytes: Buffer.from(
      comma(
        `f (kHz)|Level (dB)|Phase (deg)\n${sweeping(6)
          .map(
            ({ f, re, im }) =>
              `${f / 1000}|${(20 * Math.log10(Math.hypot(re, im))).toFixed(4)}|${((Math.atan2(im, re) * 180) / Math.PI).toFixed(3)}`,
          )
          .join("\n")}\n`,
      ),
    ),
  },
  { name: "sound.wav", bytes: wave() },
  {
    name: "holes.csv",
    bytes: Buffer.from(
      `time/s;ch1/V;ch2/V\n${ringing(8, 3e5, 0.004)
        .map(({ t, u }, i) => `${t.toFixed(8)};${i % 97 === 50 ? "" : u.toFixed(5)};${(u / 3).toFixed(5)}`)
        .join("\n")}\n`,
    ),
  },
  {
    name: "old.prn",
    bytes: Buffer.from(
      `Time in ms   Output in V\r${ringing(9, 2e5, 0.004)
        .map(({ t, u }) => `${(1e3 * t).toFixed(4)}   ${u.toFixed(4)}`)
        .join("\r")}\r`,
    ),
  },
  {
    name: "wrong unit.csv",
    bytes: Buffer.from(
      `time (s),output (V)\n${ringing(10, 2.5e5, 0.004)
        .map(({ t, u }) => `${(1e3 * t).toFixed(5)},${u.toFixed(5)}`)
        .join("\n")}\n`,
    ),
  },
];
