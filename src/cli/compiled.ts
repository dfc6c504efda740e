/**
 * Loads the built command together with its functions as V8 compiled them when it was built (`NAME.code` beside `NAME.js`).
 * Code that is missing, damaged, or of another Node only costs the time that it would have saved.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, resolve } from "node:path";
import { Script } from "node:vm";

type Module = (exports: object, require: (id: string) => unknown, module: { readonly exports: object }) => void;

/** What was loaded, by file. */
const loaded = new Map<string, { readonly module: { exports: object }; readonly script: Script }>();

/** The module of a built file (CommonJS) and, through its `require`, the files beside it. */
export function loadBuilt(file: string): object {
  const before = loaded.get(file);
  if (before) return before.module.exports;
  const source = readFileSync(file);
  const code = readCode(file, source);
  // The build writes ASCII only, which V8 keeps in a byte a letter.
  const text = `(function (exports, require, module, __filename) {${source.toString("latin1")}\n})`;
  const script = new Script(text, { filename: file, ...(code && { cachedData: code }) });
  const module = { exports: {} };
  loaded.set(file, { module, script });
  const elsewhere = createRequire(file);
  const near = (id: string) => (id.startsWith(".") ? loadBuilt(resolve(dirname(file), id)) : elsewhere(id));
  (script.runInThisContext() as (...given: [...Parameters<Module>, string]) => void)(
    module.exports,
    near,
    module,
    file,
  );
  return module.exports;
}

const codeFile = (file: string) => file.replace(/\.js$/, ".code");

/**
 * The code stands there twice, and its source after it: V8 itself looks at its version, flags and lengths only. Comparing takes less
 * time than a checksum.
 */
function readCode(file: string, source: Buffer): Buffer | null {
  try {
    const kept = readFileSync(codeFile(file));
    const size = (kept.length - source.length) / 2;
    const [code, again] = [kept.subarray(0, size), kept.subarray(size, 2 * size)];
    return size > 0 && code.equals(again) && kept.subarray(2 * size).equals(source) ? code : null;
  } catch {
    // No such file.
    return null;
  }
}

/** Keeps what has been compiled so far, file by file, for the next time. */
export function keepCompiled(): void {
  for (const [file, { script }] of loaded) {
    const code = script.createCachedData();
    writeFileSync(codeFile(file), Buffer.concat([code, code, readFileSync(file)]));
  }
}
