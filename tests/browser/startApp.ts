/** Starts the built app once for all browser tests and hands them its address. */
import type { TestProject } from "vitest/node";
import { startApp } from "../../scripts/app.ts";
import { unpackBrowser } from "../../scripts/browser.ts";

declare module "vitest" {
  interface ProvidedContext {
    /** "http://127.0.0.1:41234/" */
    readonly address: string;
  }
}

export default async function start(project: TestProject): Promise<() => Promise<void>> {
  await unpackBrowser();
  const app = await startApp();
  project.provide("address", app.url);
  return () => app.stop();
}
