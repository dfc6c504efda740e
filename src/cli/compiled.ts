/**
 * Loads the built command together with its functions as V8 compiled them when it was built (`NAME.code` beside `NAME.js`).
 * Code that is missing, damaged, or of another Node only costs the time that it would have saved.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, resolve } from "node:path";
import { Script } from "node:vm";
import { crc32 } from "node:zlib";

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

/** Checksums of source and code come before the code: V8 itself looks at its version, flags and lengths only. */
const head = 8;

const codeFile = (file: string) => file.replace(/\.js$/, ".code");

function readCode(file: string, source: Buffer): Buffer | null {
  try {
    const kept = readFileSync(codeFile(file));
    const code = kept.subarray(head);
    return kept.readUInt32LE(0) === crc32(source) && kept.readUInt32LE(4) === crc32(code) ? code : null;
  } catch {
    // No such file, or a Node before 20.15, which has no crc32.
    return null;
  }
}

/** Keeps what has been compiled so far, file by file, for the next time. */
export function keepCompiled(): void {
  for (const [file, { script }] of loaded) {
    const code = script.createCachedData();
    const sums = Buffer.alloc(head);
    sums.writeUInt32LE(crc32(readFileSync(file)), 0);
    sums.writeUInt32LE(crc32(code), 4);
    writeFileSync(codeFile(file), Buffer.concat([sums, code]));
  }
}
