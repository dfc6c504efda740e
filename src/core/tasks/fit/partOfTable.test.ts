import { expect, test } from "vitest";
import { finished } from "../../record/finished.ts";
import { readRecord } from "../../record/readRecord.ts";
import { duringTable } from "./partOfTable.ts";

function table(text: string) {
  const read = finished(readRecord(new TextEncoder().encode(text)));
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join(" "));
  return read.value;
}
const rows = (row: (i: number) => string) => Array.from({ length: 200 }, (_, i) => row(i)).join("\n");

test("the time that is told is cut out, with times of its own or without", () => {
  const timed = table(`time (ms),u (V)\n${rows((i) => `${5 + i / 100},${i}`)}\n`);
  const bare = table(`# fs = 100 kHz\n${rows((i) => `${i}`)}\n`);
  for (const [whole, since, first] of [
    [timed, 5.5e-3, 50],
    [bare, 0.5e-3, 50],
  ] as const) {
    const part = duringTable(whole, since, since + 0.4e-3);
    if (!part.ok) throw new Error("no part");
    const { rows: count, columns, time } = part.value;
    expect([count, columns.at(-1)!.values[0]]).toEqual([41, first]);
    expect([time?.start.toFixed(6), time?.sampling.toFixed(3)]).toEqual([since.toFixed(6), "100000.000"]);
  }
  expect(duringTable(timed)).toMatchObject({ value: timed });
});

test("a part of a few samples is refused", () => {
  const part = duringTable(table(`time (ms),u (V)\n${rows((i) => `${i / 100},${i}`)}\n`), 1, 2);
  expect(part.ok ? [] : part.problems.map(({ code }) => code)).toEqual(["part-too-short"]);
});
