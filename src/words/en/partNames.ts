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

const rooms: Readonly<Record<string, string>> = {
  brief: "Brief",
  materials: "Materials",
  tolerances: "Tolerances",
  choices: "What may be chosen",
  kept: "Kept designs",
  specimens: "Specimens",
  calibrations: "Calibrations",
  workshop: "Workshop",
};

/** A place that has no value of its own: "Diaphragm", "Front: holes 1", "Brief: site, static overpressure". */
export function placeWords(path: string): string {
  const steps = path
    .split(".")
    .map((step) => step.replace(/\[(\d+)\]/g, (_, index) => ` ${Number(index) + 1}`))
    .map((step) => step.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`));
  const inside = steps[0] === "microphone";
  const [first = "", ...rest] = inside && steps.length > 1 ? steps.slice(1) : steps;
  const name = inside ? partName(path) : (rooms[first] ?? names[first] ?? first);
  return rest.length === 0 ? name : `${name}: ${rest.join(", ")}`;
}
