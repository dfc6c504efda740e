/**
 * `npm test`: builds once, checks types and lint, runs every test. A build, a type check and the lint count as tests.
 * Prints "N passed, N failed" last; exit status 1 where anything failed, was skipped, or nothing ran.
 */
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const report = `${root}node_modules/.cache/vitest-report.json`;
let passed = 0;
let failed = 0;

function run(args: readonly string[]): boolean {
  return spawnSync("npx", ["--no-install", ...args], { cwd: root, stdio: "inherit" }).status === 0;
}

function check(name: string, ...args: readonly string[]): boolean {
  const started = performance.now();
  const good = run(args);
  if (good) passed++;
  else failed++;
  console.log(`${good ? "passed" : "FAILED"}  ${name} (${((performance.now() - started) / 1000).toFixed(1)} s)`);
  return good;
}

interface Report {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly numPendingTests: number;
  readonly numTodoTests: number;
  readonly numFailedTestSuites: number;
}

function readReport(): Report | null {
  try {
    return JSON.parse(readFileSync(report, "utf8")) as Report;
  } catch {
    return null;
  }
}

function tests(): void {
  mkdirSync(`${root}node_modules/.cache`, { recursive: true });
  rmSync(report, { force: true });
  const good = run(["vitest", "run", "--reporter=default", "--reporter=json", `--outputFile.json=${report}`]);
  const result = readReport();
  if (result === null) {
    console.log("FAILED  the tests gave no report");
    failed++;
    return;
  }
  const skipped = result.numPendingTests + result.numTodoTests;
  if (skipped > 0) console.log(`FAILED  ${skipped} tests were skipped`);
  if (result.numPassedTests === 0) console.log("FAILED  no test ran");
  passed += result.numPassedTests;
  failed += result.numFailedTests + skipped;
  // A file that cannot be loaded or an error outside any test fails the run without failing a test.
  if ((!good || result.numPassedTests === 0) && failed === 0) failed++;
}

if (check("build", "tsx", "scripts/build.ts")) {
  for (const part of ["core", "build", "web", "tests"])
    check(`types of ${part}`, "tsc", "--noEmit", "-p", `config/tsconfig.${part}.json`);
  check("lint and format", "biome", "check", ".");
  tests();
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
