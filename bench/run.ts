/**
 * `npm run bench`: how long the real tasks take, one thread, on this machine, against a small kernel timed in the same run.
 * `npm run bench -- WORD` runs the tasks with that word in their name; `browser` is the page under a hand and the Chart, `chart-page` that alone,
 * `big` the Records page with large files, `shelf` the Shelf of a library that has grown, `thousands` a whole chart, thousands of specimens and a search.
 */

import { browserLines, chartPageLines } from "./browser.ts";
import { kernel } from "./kernel.ts";
import { isBuildStale, machineLines } from "./machine.ts";
import { manyLines } from "./manyMicrophones.ts";
import { timeProcess } from "./process.ts";
import { recordsPageLines } from "./recordsPage.ts";
import { timeRepeated } from "./repeated.ts";
import { shelfLines } from "./shelf.ts";
import { median } from "./statistics.ts";
import { tableLines } from "./table.ts";
import type { Process, Repeated } from "./task.ts";
import { tasks } from "./tasks.ts";

const words = process.argv.slice(2);
const wanted = tasks.filter(({ name }) => words.length === 0 || words.some((word) => name.includes(word)));
const repeated = wanted.filter((task): task is Repeated => task.kind === "repeated" && task !== kernel);
const processes = wanted.filter((task): task is Process => task.kind === "process");

const inBrowser = words.length === 0 || words.includes("browser");
const many = words.length === 0 || words.includes("thousands");
const chartPage = words.includes("chart-page");
const big = words.length === 0 || words.includes("big");
const onShelf = words.length === 0 || words.includes("shelf");

if ((processes.length > 0 || many || inBrowser || chartPage || big || onShelf) && isBuildStale()) {
  console.error("dist/ is missing or older than the source: run npm run build first.");
  process.exit(1);
}
console.log(machineLines().join("\n"), "\n");
if (repeated.length + processes.length > 0) {
  const inside = timeRepeated(kernel, repeated);
  const kernelSeconds = median(inside[0]?.seconds ?? []);
  const outside = processes.map((task) => timeProcess(task, kernelSeconds));
  console.log(tableLines([...inside, ...outside]).join("\n"));
}
if (many) console.log(manyLines().join("\n"));
if (inBrowser) console.log((await browserLines()).join("\n"));
if (chartPage) console.log((await chartPageLines()).join("\n"));
if (big) console.log((await recordsPageLines()).join("\n"));
if (onShelf) console.log((await shelfLines()).join("\n"));
