/** Where the figures were measured: they mean little without it. */
import { spawnSync } from "node:child_process";
import { readdirSync, statSync } from "node:fs";
import { cpus, loadavg, totalmem } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));

export function machineLines(): readonly string[] {
  const processors = cpus();
  return [
    `machine  ${processors[0]?.model.trim() ?? "unknown"}, ${processors.length} threads, ${(totalmem() / 1e9).toFixed(1)} GB, ${process.platform} ${process.arch}`,
    `node     ${process.version}, load ${loadavg()[0]?.toFixed(2)} when the bench began`,
    `commit   ${commit()}`,
  ];
}

function git(...args: readonly string[]): string | null {
  const { status, stdout } = spawnSync("git", args, { cwd: root, encoding: "utf8" });
  return status === 0 ? stdout.trim() : null;
}

function commit(): string {
  const hash = git("rev-parse", "--short=12", "HEAD");
  if (hash === null) return "unknown (no git)";
  const changed = git("status", "--porcelain", "--", "src", "bench");
  return changed ? `${hash}, with changes that are not committed` : hash;
}

/** True where dist/ is missing or older than some file that it is made of. */
export function isBuildStale(): boolean {
  const newest = Math.max(
    ...["src/core", "src/words", "src/cli"].map((folder) =>
      Math.max(
        ...readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
          .filter((entry) => entry.isFile() && entry.name.endsWith(".ts") && !entry.name.endsWith(".test.ts"))
          .map((entry) => statSync(join(entry.parentPath, entry.name)).mtimeMs),
      ),
    ),
  );
  const built = statSync(join(root, "dist/cli/main.js"), { throwIfNoEntry: false });
  return built === undefined || built.mtimeMs < newest;
}
