/** Bundles the command and its threads into few files: one a verb in place of a hundred, which halves the time to start. */
import { fileURLToPath } from "node:url";
import { defineConfig, type Plugin } from "vite";
import { plainPairs } from "./plainPairs.ts";

const root = fileURLToPath(new URL("../", import.meta.url));

/** Letters beyond ASCII as escapes: such a file is read and kept in a byte a letter (src/cli/compiled.ts). */
const asciiOnly: Plugin = {
  name: "ascii-only",
  generateBundle(_, files) {
    for (const file of Object.values(files))
      if (file.type === "chunk")
        file.code = file.code.replace(
          /[\u0080-\uffff]/g,
          (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, "0")}`,
        );
  },
};

/** Our verbs are no programs of their own: what starts those is not loaded with the reader of arguments. */
const withoutPrograms: Plugin = {
  name: "without-programs",
  enforce: "pre",
  resolveId: (id, importer) =>
    id === "node:child_process" && importer?.includes("/commander/") ? "\0no-programs" : null,
  load: (id) => (id === "\0no-programs" ? "export {};" : null),
};

export default defineConfig({
  root,
  plugins: [plainPairs, asciiOnly, withoutPrograms],
  // The database is native code: it stays a package of its own.
  ssr: { noExternal: true, external: ["@photostructure/sqlite"], target: "node" },
  build: {
    ssr: true,
    outDir: "dist",
    target: "node20",
    minify: true,
    rolldownOptions: {
      // These rooms only say what they export: a verb then loads the parts of the core that it uses, not all.
      treeshake: { moduleSideEffects: (id: string) => !/\/src\/(core|words|figure|writers)\//.test(id) },
      input: Object.fromEntries(
        ["cli/main", "cli/run", "cli/warm", "worker/nodeThread"].map((name) => [name, `${root}src/${name}.ts`]),
      ),
      // CommonJS starts sooner, and its scripts can be kept compiled.
      output: { format: "cjs", entryFileNames: "[name].js", chunkFileNames: "chunks/[name].js" },
    },
  },
});
