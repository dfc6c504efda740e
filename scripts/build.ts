/** `npm run build`: plain JavaScript for Node into dist/, the app into dist/web. Exit status 1 where a step fails. */
import { spawnSync } from "node:child_process";
import { chmodSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));

function step(name: string, ...args: readonly string[]): void {
  const started = performance.now();
  const { status } = spawnSync("npx", ["--no-install", ...args], { cwd: root, stdio: "inherit" });
  if (status !== 0) {
    console.error(`build: ${name} failed`);
    process.exit(1);
  }
  console.log(`build: ${name}, ${((performance.now() - started) / 1000).toFixed(1)} s`);
}

step("core and command", "tsc", "-p", "config/tsconfig.build.json");
step("command in few files", "vite", "build", "--config", "config/vite.command.config.ts", "--logLevel", "warn");
chmodSync(`${root}dist/cli/main.js`, 0o755);
step("app", "vite", "build", "--logLevel", "warn");
