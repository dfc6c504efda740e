/** Coverage from other seeds, and damaged files by the thousand. */
import { expect, test } from "vitest";
import { seededUniform } from "../../src/core/numerics/random.ts";
import { finished } from "../../src/core/record/finished.ts";
import { readRecord } from "../../src/core/record/readRecord.ts";
import { responseCoverage, ringDownCoverage } from "../coverage.ts";
import { damage } from "../damage.ts";

test.each([2, 3, 4])("of seed %i, intervals hold the truth in 93 to 97 of 100 records", (seed) => {
  for (const { dampingRatio, frequency } of [ringDownCoverage(seed, 1000), responseCoverage(seed, 1000)])
    for (const share of [dampingRatio, frequency]) {
      expect(share).toBeGreaterThanOrEqual(0.93);
      expect(share).toBeLessThanOrEqual(0.97);
    }
});

test("5,000 damaged files end in an answer or a problem that says something", () => {
  const random = seededUniform(23);
  const rows = Array.from({ length: 60 }, (_, i) => `${i / 100};${Math.sin(i / 4).toFixed(5)}`);
  const sources = [
    `time (ms);ch1 (V)\n${rows.join("\n")}\n`,
    `# fs = 96 kHz\n${rows.map((row) => row.split(";")[1]).join("\n")}\n`,
    `Zeit;U\n(ms);(V)\n${rows.join("\r\n").replaceAll(".", ",")}`,
  ].map((text) => new TextEncoder().encode(text));
  for (let n = 0; n < 5000; n++) {
    const outcome = finished(readRecord(damage(sources[n % sources.length]!, random)));
    if (outcome.ok) expect(outcome.value.rows).toBeGreaterThan(1);
    else for (const { code, message } of outcome.problems) expect(code !== "" && message.length > 20).toBe(true);
  }
});
