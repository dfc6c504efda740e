import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { findImports } from "./findImports.ts";
import { breaches } from "./order.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const src = join(root, "src");

function sourceFiles(): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  for (const entry of readdirSync(src, { withFileTypes: true, recursive: true })) {
    if (!entry.isFile()) continue;
    const path = join(entry.parentPath, entry.name);
    files.set(relative(src, path).split(sep).join("/"), readFileSync(path, "utf8"));
  }
  return files;
}

const files = sourceFiles();

describe("the tree as it is", () => {
  test("has files and imports to look at", () => {
    const count = [...files].flatMap(([file, text]) => (/\.tsx?$/.test(file) ? findImports(file, text) : [])).length;
    expect(files.size).toBeGreaterThan(50);
    expect(count).toBeGreaterThan(files.size);
  });

  test("keeps the order of import", () => {
    expect(breaches(files)).toEqual([]);
  });

  test("uses only packages that package.json names for use", () => {
    const { dependencies } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
      dependencies: Record<string, string>;
    };
    const used = [...files]
      .filter(([file]) => /\.tsx?$/.test(file) && !/\.test\.tsx?$/.test(file))
      .flatMap(([file, text]) => findImports(file, text))
      .flatMap(({ from }) => (from === null || from.startsWith(".") || from.startsWith("node:") ? [] : [from]))
      .map((from) =>
        from
          .split("/")
          .slice(0, from.startsWith("@") ? 2 : 1)
          .join("/"),
      );
    expect([...new Set(used)].filter((name) => !(name in dependencies))).toEqual([]);
  });
});

/** Plants one file into a small tree and gives the reasons. */
function planted(file: string, text: string): readonly string[] {
  const tree = new Map([
    ["core/problem.ts", ""],
    ["core/numerics/legendre.ts", ""],
    ["core/parts/film/film.ts", ""],
    ["core/parts/guide/guide.ts", ""],
    ["core/microphone/system/prepare.ts", ""],
    ["core/tasks/predict/predict.ts", ""],
    ["core/tasks/chart/chart.ts", ""],
    ["core/index.ts", ""],
    ["words/en/predict.ts", ""],
    ["figure/curve.ts", ""],
    ["worker/asker.ts", ""],
    ["worker/asker.test.ts", ""],
    ["server/api.ts", ""],
    ["server/serve.ts", ""],
    ["cli/open.ts", ""],
    ["web/main.tsx", ""],
    [file, text],
  ]);
  return breaches(tree).map(({ why }) => why);
}

describe("a planted breach is caught", () => {
  const below = [
    ["core/problem.ts", 'import { legendre } from "./numerics/legendre.ts";'],
    ["core/numerics/new.ts", 'import type { Film } from "../parts/film/film.ts";'],
    ["core/parts/film/new.ts", 'export { prepare } from "../../microphone/system/prepare.ts";'],
    ["core/microphone/new.ts", 'export * from "../tasks/predict/predict.ts";'],
    ["core/tasks/chart/new.ts", 'import "../../index.ts";'],
    ["core/index.ts", 'const words = await import("../words/en/predict.ts");'],
    ["words/en/new.ts", "const figure = await import(`../../figure/curve.ts`);"],
    ["figure/new.ts", 'type Asker = import("../worker/asker.ts").Asker;'],
    ["worker/new.ts", 'const thread = new Worker(new URL("../server/serve.ts", import.meta.url));'],
    ["server/new.ts", 'import open = require("../cli/open.ts");'],
    ["cli/new.ts", 'const page = require("../web/main.tsx");'],
  ] as const;
  test.each(below)("%s: %s", (file, text) => {
    expect(planted(file, text)).toEqual([expect.stringMatching(/lies below .* and may not see it/)]);
  });

  test("a part that takes a value of another part, but not one that takes its type", () => {
    const value = 'import { gap } from "../film/film.ts";';
    expect(planted("core/parts/guide/new.ts", value)).toEqual([expect.stringContaining("no values")]);
    // Left behind by the compiler as `import "../film/film.ts"`.
    const inline = 'import { type Film } from "../film/film.ts";';
    expect(planted("core/parts/guide/new.ts", inline)).toEqual([expect.stringContaining("no values")]);
    expect(planted("core/parts/guide/new.ts", 'import type { Film } from "../film/film.ts";')).toEqual([]);
    expect(planted("core/parts/film/new.ts", 'import { gap } from "./film.ts";')).toEqual([]);
  });

  test("a task that takes another neighbor than predict", () => {
    const other = 'import { chart } from "../chart/chart.ts";';
    expect(planted("core/tasks/spread/spread.ts", other)).toEqual([expect.stringContaining("no other neighbor")]);
    const predict = 'import { predict } from "../predict/predict.ts";';
    expect(planted("core/tasks/spread/spread.ts", predict)).toEqual([]);
  });

  test("a page that looks behind core/index.ts, or takes more than types of the server", () => {
    const deep = 'import type { Film } from "../core/parts/film/film.ts";';
    expect(planted("web/new.tsx", deep)).toEqual([expect.stringContaining("web sees")]);
    expect(planted("web/new.tsx", 'import { serve } from "../server/serve.ts";')).toHaveLength(1);
    expect(planted("web/new.tsx", 'import { api } from "../server/api.ts";')).toEqual([
      expect.stringContaining("no values"),
    ]);
    const allowed = `import type { OpenedProject } from "../server/api.ts"; import { load } from "../core/index.ts";
      import { words } from "../words/en/predict.ts"; import { curve } from "../figure/curve.ts"; import { asker } from "../worker/asker.ts";`;
    expect(planted("web/new.tsx", allowed)).toEqual([]);
  });

  test("core that knows Node or the DOM", () => {
    for (const from of ["node:fs", "fs", "fs/promises", "process"])
      expect(planted("core/numerics/new.ts", `import x from "${from}";`)).toEqual([
        "core/numerics knows nothing of Node",
      ]);
    for (const from of ["solid-js", "@observablehq/plot", "hono/cors"])
      expect(planted("core/numerics/new.ts", `import x from "${from}";`)).toEqual(["core takes pure packages only"]);
    expect(planted("core/numerics/new.ts", 'import { Matrix } from "ml-matrix";')).toEqual([]);
    expect(planted("web/new.ts", 'import { readFileSync } from "node:fs";')).toEqual(["web knows nothing of Node"]);
    expect(planted("server/new.ts", 'import { readFileSync } from "node:fs";')).toEqual([]);
  });

  test("an import that leads nowhere, out of src, into a test, or that is computed", () => {
    expect(planted("cli/new.ts", 'import "./open";')).toEqual([expect.stringContaining("leads to no file")]);
    expect(planted("cli/new.ts", 'import "../../truth/row.ts";')).toEqual(["leads out of src/"]);
    expect(planted("cli/new.ts", 'import "../../docs/sources.md?raw";')).toEqual(["leads out of src/"]);
    expect(planted("web/new.ts", 'import "../../docs/sources.md?raw";')).toEqual([]);
    expect(planted("cli/new.ts", 'import "../worker/asker.test.ts";')).toEqual(["leads to a test"]);
    expect(planted("cli/new.ts", "const x = await import(process.argv[2]);")).toEqual([
      expect.stringContaining("is computed"),
    ]);
  });

  test("a file in no room", () => {
    expect(planted("core/utils.ts", "")).toEqual(["lies in no room of the tree"]);
    expect(planted("helpers/text.ts", "")).toEqual(["lies in no room of the tree"]);
  });

  test("text that only looks like an import is none", () => {
    const text = `// import "../web/main.tsx";
      /* import "../web/main.tsx"; */
      const said = 'import "../web/main.tsx"; import("../web/main.tsx")';
      const pattern = /import ["']x["']/;
      const address = new URL("../web/", import.meta.url);`;
    expect(planted("server/new.ts", text)).toEqual([]);
  });
});
