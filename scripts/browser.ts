/**
 * The browser for tests and pictures. On x86-64 Linux it comes out of a package and needs no system library;
 * elsewhere an installed Chromium is used. Without one this fails: tests are not skipped.
 */
import { createReadStream, createWriteStream, existsSync } from "node:fs";
import { mkdir, mkdtemp, rename, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { pipeline } from "node:stream/promises";
import { fileURLToPath } from "node:url";
import { createBrotliDecompress } from "node:zlib";
import { type Browser, chromium } from "playwright-core";
import { extract } from "tar-fs";

const home = fileURLToPath(new URL("../node_modules/.cache/chromium-147", import.meta.url));
const packaged = process.platform === "linux" && process.arch === "x64";

/** Unpacks the packaged browser once; 5 s the first time, nothing afterwards. Two at once do no harm. */
export async function unpackBrowser(): Promise<void> {
  if (!packaged || existsSync(home)) return;
  const bin = join(dirname(createRequire(import.meta.url).resolve("@sparticuz/chromium")), "../../bin");
  await mkdir(dirname(home), { recursive: true });
  const part = await mkdtemp(`${home}-`);
  const unpack = (name: string, to: NodeJS.WritableStream) =>
    pipeline(createReadStream(join(bin, name)), createBrotliDecompress(), to);
  await unpack("al2023.tar.br", extract(part));
  await unpack("fonts.tar.br", extract(part));
  // Software WebGL; must lie beside the binary.
  await unpack("swiftshader.tar.br", extract(part));
  await unpack("chromium.br", createWriteStream(join(part, "chromium"), { mode: 0o755 }));
  // Without a right font configuration pages have no text, and nothing complains.
  await writeFile(
    join(part, "fonts.conf"),
    `<?xml version="1.0"?><fontconfig><dir>${home}/fonts</dir><cachedir>${home}/font-cache</cachedir></fontconfig>`,
  );
  await rename(part, home).catch(() => rm(part, { recursive: true })); // another process was first
}

/** Starts the browser. The caller closes it. */
export async function openBrowser(): Promise<Browser> {
  await unpackBrowser();
  const server = await chromium.launchServer({
    executablePath: packaged ? join(home, "chromium") : (process.env["CHROMIUM"] ?? "/usr/bin/chromium"),
    args: [
      "--no-sandbox",
      "--use-gl=angle",
      "--use-angle=swiftshader",
      "--enable-unsafe-swiftshader",
      // WebGL is drawn in software; pages must not be: a curve's fill took it seconds.
      "--disable-gpu-rasterization",
      "--font-render-hinting=none",
    ],
    ...(packaged && {
      env: {
        ...(process.env as Record<string, string>),
        LD_LIBRARY_PATH: join(home, "lib"),
        FONTCONFIG_FILE: join(home, "fonts.conf"),
        LANG: "en_US.UTF-8",
      },
    }),
  });
  const browser = await chromium.connect(server.wsEndpoint());
  // Ended at once: a polite end waits for what a page's workers are computing.
  return Object.assign(browser, { close: () => server.kill() });
}
