/** Where a user's library lies when nobody says otherwise. */
import { homedir } from "node:os";
import { join } from "node:path";

/**
 * The platform's usual place for a program's data.
 * Source: XDG Base Directory Specification 0.8 (Linux); common practice (macOS, Windows).
 */
export function dataFolder(
  platform: NodeJS.Platform = process.platform,
  environment: Readonly<Record<string, string | undefined>> = process.env,
  home: string = homedir(),
): string {
  if (platform === "darwin") return join(home, "Library", "Application Support", "Glassdrum");
  if (platform === "win32") return join(environment["APPDATA"] ?? join(home, "AppData", "Roaming"), "Glassdrum");
  const base = environment["XDG_DATA_HOME"];
  // The specification: a path that is not absolute is invalid and must be ignored.
  return join(base?.startsWith("/") ? base : join(home, ".local", "share"), "glassdrum");
}

/** Name of the library's file in its folder. */
export const libraryFile = "library.db";
