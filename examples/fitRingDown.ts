/**
 * Fit my ring-down: a file as a recorder wrote it (invented data, and the file says so), its damping ratio with how sure it is,
 * and the reading as a record of a specimen in the project.
 *
 *     npx tsx examples/fitRingDown.ts
 */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import {
  finished,
  fitRecord,
  formatNumber,
  formatQuantity,
  intoProject,
  loadProject,
  type Project,
  type RingDown,
  readRecord,
} from "../src/core/index.ts";
import { answerOf } from "./workedPlate.ts";

const name = "inventedRingDown.csv";

export interface FittedRingDown {
  readonly reading: RingDown;
  /** With the reading in specimen "invented". */
  readonly project: Project;
}

export function fitRingDown(say: (line: string) => void = console.log): FittedRingDown {
  const table = answerOf(finished(readRecord(readFileSync(new URL(`./${name}`, import.meta.url)))));
  say(`${name}: ${table.rows} samples, ${formatQuantity(table.time?.sampling ?? null, "frequency")} sampling`);
  const { reading } = answerOf(fitRecord({ table }));
  if (reading.kind !== "ring-down") throw new Error(`the columns were taken for a ${reading.kind}`);
  const { dampingRatio, frequency } = reading.values;
  const shown = ({ value, standardUncertainty }: typeof frequency) => ({ value, standard: standardUncertainty ?? 0 });
  const [zeta, f] = [shown(dampingRatio), shown(frequency)];
  say(
    `damping ratio ${formatQuantity(zeta.value, "number", zeta)}, resonance ${formatQuantity(f.value, "frequency", f)}`,
  );
  say(`95 %: ${formatNumber(dampingRatio.low)} to ${formatNumber(dampingRatio.high)}`);
  const second = reading.secondOpinion;
  say(`second opinion by ${second.by}: ${formatNumber(second.value, { digits: 3 })}`);
  const start = answerOf(loadProject('{ "format": "glassdrum-project", "version": 1 }'));
  const written = intoProject(start, {
    specimen: "invented",
    file: name,
    kind: reading.kind,
    recipe: table.recipe,
    reading,
  });
  const project = answerOf(written);
  say(`written into specimen ${project.file.specimens?.[0]?.name}`);
  return { reading, project };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) fitRingDown();
