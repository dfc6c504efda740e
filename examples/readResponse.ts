/**
 * Read the response of a project file: level and phase at chosen frequencies, and what the resonance does to them.
 *
 *     npx tsx examples/readResponse.ts
 */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { formatNumber, formatQuantity, loadProject, type Prediction, predict } from "../src/core/index.ts";
import { answerOf } from "./workedPlate.ts";

const file = new URL("./specimen.glassdrum.json", import.meta.url);

export function readResponse(say: (line: string) => void = console.log): Prediction {
  const project = answerOf(loadProject(readFileSync(file)));
  const prediction = answerOf(predict(project, { frequencies: [100, 1000, 10e3, 18e3, 19e3] }));
  const { response, resonance, sensitivity } = prediction;
  say(`${project.file.title}: ${formatQuantity(sensitivity.static, "phaseSensitivity", { digits: 3 })} at rest`);
  response.frequency.forEach((frequency, i) => {
    const re = response.re[i] ?? Number.NaN;
    const im = response.im[i] ?? Number.NaN;
    const size = formatQuantity(Math.hypot(re, im), "phaseSensitivity", { digits: 4 });
    const angle = formatNumber((180 / Math.PI) * Math.atan2(im, re), { digits: 3 });
    say(`${formatQuantity(frequency, "frequency", { digits: 3 })}  ${size}  ${angle} deg`);
  });
  if (resonance.frequency !== null && resonance.dampingRatio !== null)
    say(
      `It rings at ${formatQuantity(resonance.frequency, "frequency", { digits: 4 })} with a damping ratio of ${formatNumber(resonance.dampingRatio, { digits: 3 })}.`,
    );
  return prediction;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) readResponse();
