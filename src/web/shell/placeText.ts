/** Where a problem lies, as a reader of the page would call it; the file's own path where it must be mended there. */
import { findPath, pathText } from "../../core/index.ts";
import { placeWords } from "../../words/en/partNames.ts";

/** "Air gap", "Diaphragm", "Brief: site, humidity"; empty: nowhere. */
export function placeText(path: readonly (string | number)[]): string {
  if (path.length === 0) return "";
  const found = findPath(path);
  return found.ok ? found.value.label : placeWords(pathText(path));
}
