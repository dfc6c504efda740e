/** The version of this program, as package.json says it. */
import { readFileSync } from "node:fs";

// dist/cli/version.js and src/cli/version.ts lie equally deep.
const packageFile = new URL("../../package.json", import.meta.url);

export const version: string = (JSON.parse(readFileSync(packageFile, "utf8")) as { version: string }).version;
