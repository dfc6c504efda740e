/** What the part of a path is called: "Diaphragm" of microphone.diaphragm.thickness. */
const names: Readonly<Record<string, string>> = {
  diaphragm: "Diaphragm",
  frame: "Frame",
  load: "Load",
  guide: "Guide",
  light: "Light",
  film: "Air film",
  front: "Front",
  back: "Back",
  body: "Body",
  readout: "Readout",
  air: "Air",
};

export function partName(path: string): string {
  const [first = "", second = ""] = path.split(".");
  const key = (first === "microphone" ? second : first).replace(/\[\d+\]$/, "");
  const index = /^microphone\.guide\[(\d+)\]/.exec(path)?.[1];
  const name = names[key] ?? key;
  return index === undefined ? name : `${name} ${Number(index) + 1}`;
}
