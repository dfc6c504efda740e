/**
 * WAV files: PCM of 8 to 32 bits, float of 32 and 64, any number of channels, either order of bytes (RIFX), RF64 and W64 for
 * large ones. Every chunk's length is checked against the file before a sample is read. Source: RIFF and WAVE as Microsoft and IBM
 * published them in 1991, RF64 by EBU Tech 3306, W64 as Sonic Foundry gave it away (from memory; read back against files of
 * another writer in the tests).
 */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import type { Progress } from "./tableRows.ts";

export interface Wave {
  /** [Hz] */
  readonly sampling: number;
  readonly bits: number;
  readonly float: boolean;
  /** One list a channel, full scale 1. */
  readonly channels: readonly Float64Array[];
}

export const isWave = (bytes: Uint8Array): boolean => frameOf(bytes) !== null;

const name = (bytes: Uint8Array, at: number): string =>
  at + 4 <= bytes.length ? String.fromCharCode(...bytes.subarray(at, at + 4)) : "";

/** How the chunks of a file follow each other. */
interface Frame {
  /** Byte of the first chunk. */
  readonly first: number;
  readonly little: boolean;
  /** W64: names of 16 bytes, lengths of 8 that count the head of the chunk, at multiples of 8. */
  readonly wide: boolean;
}

function frameOf(bytes: Uint8Array): Frame | null {
  const form = name(bytes, 0);
  if ((form === "RIFF" || form === "RF64" || form === "RIFX") && name(bytes, 8) === "WAVE")
    return { first: 12, little: form !== "RIFX", wide: false };
  return form === "riff" && name(bytes, 24) === "wave" ? { first: 40, little: true, wide: true } : null;
}

interface Chunk {
  readonly id: string;
  readonly body: number;
  readonly said: number;
  readonly next: number;
}

function chunkAt(view: DataView, bytes: Uint8Array, at: number, { little, wide }: Frame): Chunk | null {
  if (at + (wide ? 24 : 8) > bytes.length) return null;
  const id = name(bytes, at);
  if (!wide) {
    const said = view.getUint32(at + 4, little);
    return { id, body: at + 8, said, next: at + 8 + said + (said & 1) };
  }
  const whole = Number(view.getBigUint64(at + 16, true));
  return { id, body: at + 24, said: whole - 24, next: at + Math.max(24, 8 * Math.ceil(whole / 8)) };
}

interface Format {
  readonly code: number;
  readonly channels: number;
  readonly sampling: number;
  readonly block: number;
  readonly bits: number;
}

/**
 * Problems: `wave-without-format`, `wave-without-data`, `wave-format-unknown`, `wave-cut` (the chunk says more bytes than there are).
 * A cut file is read as far as it goes only when `cut` allows it; then `wave-cut` is a remark.
 */
export function* readWave(bytes: Uint8Array, cut = false): Generator<Progress, Outcome<Wave>> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let format: Format | null = null;
  let data: { readonly from: number; readonly length: number; readonly said: number } | null = null;
  let largeData: number | null = null;
  const frame = frameOf(bytes) ?? { first: 12, little: true, wide: false };
  for (let at = frame.first; ; ) {
    const chunk = chunkAt(view, bytes, at, frame);
    if (chunk === null) break;
    const { id, body, said, next } = chunk;
    if (id === "ds64" && body + 16 <= bytes.length) largeData = Number(view.getBigUint64(body + 8, true));
    if (id === "fmt " && said >= 16 && body + 16 <= bytes.length)
      format = formatAt(view, body, said, bytes.length, frame.little);
    if (id === "data") {
      const length = said === 0xffffffff && !frame.wide ? (largeData ?? bytes.length - body) : said;
      data = { from: body, length: Math.min(length, bytes.length - body), said: length };
      break;
    }
    at = next;
  }
  const problems = check(format, data, bytes.length, cut);
  if (format === null || data === null || problems.some(({ code }) => code !== "wave-cut" || !cut))
    return refuse(...problems);
  const { channels: count, bits, block } = format;
  const frames = Math.floor(data.length / block);
  const channels = Array.from({ length: count }, () => new Float64Array(frames));
  const read = sampleReader(view, format, frame.little);
  const width = block / count;
  for (let i = 0; i < frames; i++) {
    if (i % 262144 === 262143) yield { done: i, of: frames };
    for (let c = 0; c < count; c++) channels[c]![i] = read(data.from + i * block + c * width);
  }
  return answer({ sampling: format.sampling, bits, float: format.code === 3, channels }, problems);
}

function formatAt(view: DataView, body: number, said: number, length: number, little: boolean): Format {
  const code = view.getUint16(body, little);
  // Extensible: the true code stands at the start of the sub-format.
  const real = code === 0xfffe && said >= 26 && body + 26 <= length ? view.getUint16(body + 24, little) : code;
  return {
    code: real,
    channels: view.getUint16(body + 2, little),
    sampling: view.getUint32(body + 4, little),
    block: view.getUint16(body + 12, little),
    bits: view.getUint16(body + 14, little),
  };
}

function check(
  format: Format | null,
  data: { readonly length: number; readonly said: number } | null,
  length: number,
  cut: boolean,
): Problem[] {
  const problems: Problem[] = [];
  const no = (code: string, message: string) => problems.push({ code, path: [], message });
  if (format === null) no("wave-without-format", `No "fmt " chunk in ${length} bytes; needed: a whole WAV file.`);
  else {
    const bytesEach = format.channels > 0 ? format.block / format.channels : 0;
    const known =
      (format.code === 1 && [1, 2, 3, 4].includes(bytesEach) && format.bits <= 8 * bytesEach && format.bits > 0) ||
      (format.code === 3 && (bytesEach === 4 || bytesEach === 8));
    if (!known || format.sampling === 0)
      no(
        "wave-format-unknown",
        `Found format ${format.code}, ${format.channels} channels, ${format.bits} bits, ${format.sampling} Hz, ${format.block} bytes a frame; needed: PCM of 8 to 32 bits or float. Save it again as such.`,
      );
  }
  if (data === null) no("wave-without-data", `No "data" chunk in ${length} bytes; needed: a whole WAV file.`);
  else if (data.said > data.length)
    no(
      "wave-cut",
      `The file says ${data.said} bytes of samples and holds ${data.length}: it was cut. ${cut ? "What is there was read." : "Copy it again, or allow a cut file."}`,
    );
  else if (data.length === 0) no("wave-without-data", "The file holds no samples; needed: a record.");
  return problems;
}

function sampleReader(
  view: DataView,
  { code, channels, block, bits }: Format,
  little: boolean,
): (at: number) => number {
  const width = block / channels;
  if (code === 3) return width === 4 ? (at) => view.getFloat32(at, little) : (at) => view.getFloat64(at, little);
  if (width === 1) return (at) => (view.getUint8(at) - 128) / 128;
  if (width === 2) return (at) => view.getInt16(at, little) / 32768;
  if (width === 3) {
    const [high, low] = little ? [2, 0] : [0, 2];
    return (at) => ((view.getInt8(at + high) << 16) | (view.getUint8(at + 1) << 8) | view.getUint8(at + low)) / 8388608;
  }
  // 24 bits in 4 bytes are left-justified, so that full scale is the same.
  return bits === 0 ? () => 0 : (at) => view.getInt32(at, little) / 2147483648;
}
