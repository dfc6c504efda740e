/** The app's files, read once when the server starts: a request can name one of them and nothing else on the disk. */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";

export interface AppFile {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly type: string;
  /** Its name changes with its content, so that it may be kept for good. */
  readonly hashed: boolean;
}

const types: Readonly<Record<string, string>> = {
  html: "text/html; charset=utf-8",
  js: "text/javascript; charset=utf-8",
  css: "text/css; charset=utf-8",
  svg: "image/svg+xml",
  png: "image/png",
  ttf: "font/ttf",
  woff2: "font/woff2",
  json: "application/json",
  wasm: "application/wasm",
};

/** Every file of a folder by its address: "/assets/index-1a2b.js". Empty where there is no such folder. */
export function readFiles(folder: string): ReadonlyMap<string, AppFile> {
  const files = new Map<string, AppFile>();
  for (const entry of entries(folder)) {
    if (!entry.isFile()) continue;
    const path = join(entry.parentPath, entry.name);
    const address = `/${relative(folder, path).split(sep).join("/")}`;
    const ending = entry.name.slice(entry.name.lastIndexOf(".") + 1);
    files.set(address, {
      bytes: new Uint8Array(readFileSync(path)),
      type: types[ending] ?? "application/octet-stream",
      hashed: address.startsWith("/assets/"),
    });
  }
  return files;
}

function entries(folder: string) {
  try {
    return readdirSync(folder, { withFileTypes: true, recursive: true });
  } catch {
    return [];
  }
}
