/** The response as a table for other programs. */
import type { Prediction } from "../core/tasks/predict/prediction.ts";

const header =
  "frequency [Hz],real part [rad/Pa],imaginary part [rad/Pa],magnitude [rad/Pa],level [dB re 1 rad/Pa],phase [deg]";

/** One line a frequency, lines end with CR LF (RFC 4180), decimal points, all digits. A level of nothing is an empty cell. */
export function responseCsv({ frequency, re, im }: Prediction["response"]): string {
  const lines = frequency.map((f, i) => {
    const x = re[i] ?? 0;
    const y = im[i] ?? 0;
    const magnitude = Math.hypot(x, y);
    const level = magnitude > 0 ? 20 * Math.log10(magnitude) : "";
    return [f, x, y, magnitude, level, (Math.atan2(y, x) * 180) / Math.PI].join(",");
  });
  return `${[header, ...lines].join("\r\n")}\r\n`;
}
