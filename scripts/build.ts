/**
 * `npm run build`: the command for Node into dist/, with what V8 compiles for a prediction kept beside it, and the app into
 * dist/web. Types are checked elsewhere (`npm run types`, `npm test`). Exit status 1 where a step fails.
 */
import { spawnSync } from "node:child_process";
import { chmodSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const dist = `${root}dist/`;

function step(name: string, ...command: readonly [string, ...string[]]): void {
  const started = performance.now();
  const [program, ...args] = command;
  const { status } = spawnSync(program, args, { cwd: root, stdio: ["ignore", "ignore", "inherit"] });
  if (status !== 0) {
    console.error(`build: ${name} failed`);
    process.exit(1);
  }
  console.log(`build: ${name}, ${((performance.now() - started) / 1000).toFixed(1)} s`);
}

const bundle = (name: string, ...options: readonly string[]) =>
  step(name, "npx", "--no-install", "vite", "build", "--logLevel", "warn", ...options);

rmSync(dist, { recursive: true, force: true });
bundle("command", "--config", "config/vite.command.config.ts");
// The package speaks ES modules; what is built here does not.
writeFileSync(`${dist}package.json`, '{ "type": "commonjs" }\n');
chmodSync(`${dist}cli/main.js`, 0o755);
step("command, compiled", process.execPath, `${dist}cli/warm.js`);
bundle("app");
