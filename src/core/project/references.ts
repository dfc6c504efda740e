/** What tolerances, choices, kept designs and free values say about other values of the project: do the paths exist, do the units fit? */
import type { Path, Problem } from "../problem.ts";
import { differenceKind, type KindName } from "../quantity/kinds.ts";
import { readField } from "./fields.ts";
import { lookUp, type Place, readPath } from "./lookUp.ts";
import type { ProjectFile } from "./shape.ts";
import type { Json } from "./text.ts";
import { validate } from "./validate.ts";

/** Problems: `unknown-path`, `unreadable-path`, `not-a-value`, `missing-key`, and those of the values. */
export function checkReferences(file: ProjectFile): Problem[] {
  const problems: Problem[] = [];
  const collect = (found: readonly Problem[]) => problems.push(...found);

  (file.tolerances ?? []).forEach((tolerance, i) => {
    const path: Path = ["tolerances", i];
    if (tolerance.together !== undefined) {
      for (const [k, text] of tolerance.together.entries())
        collect(quantityPlace(text, [...path, "together", k]).problems);
      return;
    }
    const { place, problems: found } = quantityPlace(tolerance.path, [...path, "path"]);
    collect(found);
    if (place === null) return;
    const kind = differenceKind(place.kind);
    for (const key of ["standard", "half"] as const) collect(spread(tolerance[key], kind, [...path, key]));
  });

  (file.choices ?? []).forEach((choice, i) => {
    const path: Path = ["choices", i];
    const found = anyPlace(choice.path, [...path, "path"]);
    collect(found.problems);
    if (found.place === null) return;
    const { schema } = found.place;
    for (const key of ["from", "between"] as const)
      for (const [k, value] of (choice[key] ?? []).entries())
        collect(validate(schema, value as Json, [...path, key, k]).problems);
  });

  (file.kept ?? []).forEach((kept, i) => {
    for (const [text, value] of Object.entries(kept.changes ?? {})) {
      const path: Path = ["kept", i, "changes", text];
      const found = anyPlace(text, path);
      collect(found.problems);
      if (found.place !== null) collect(validate(found.place.schema, value as Json, path).problems);
    }
  });

  (file.specimens ?? []).forEach((specimen, i) => {
    (specimen.free ?? []).forEach((free, k) => {
      const path: Path = ["specimens", i, "free", k];
      const { place, problems: found } = quantityPlace(inMicrophone(free.path), [...path, "path"]);
      collect(found);
      if (place === null) return;
      const { between, mean, standard } = free.prior ?? {};
      for (const [n, end] of (between ?? []).entries()) collect(value(end, place, [...path, "prior", "between", n]));
      if (mean !== undefined) collect(value(mean, place, [...path, "prior", "mean"]));
      collect(spread(standard, differenceKind(place.kind), [...path, "prior", "standard"]));
    });
  });
  return problems;
}

const inMicrophone = (text: string | undefined) => (text === undefined ? undefined : `microphone.${text}`);

function anyPlace(text: string | undefined, at: Path): { place: Place | null; problems: readonly Problem[] } {
  if (text === undefined) {
    const message = 'A path is missing, such as "microphone.film.gap".';
    return { place: null, problems: [{ code: "missing-key", path: at, message }] };
  }
  const steps = readPath(text);
  const found = steps.ok ? lookUp(steps.value) : steps;
  if (found.ok) return { place: found.value, problems: [] };
  return { place: null, problems: found.problems.map((problem) => ({ ...problem, path: at })) };
}

function quantityPlace(text: string | undefined, at: Path) {
  const { place, problems } = anyPlace(text, at);
  if (place === null || place.field !== null) return { place: place?.field ?? null, problems };
  const message = `"${text}" is not a value with a number, so it cannot vary.`;
  return { place: null, problems: [{ code: "not-a-value", path: at, message }] };
}

const value = (given: string | number, field: NonNullable<Place["field"]>, path: Path): readonly Problem[] => {
  const read = readField(given, field, path);
  return read.ok ? [] : read.problems;
};

const spread = (given: string | number | undefined, kind: KindName, path: Path): readonly Problem[] =>
  given === undefined ? [] : value(given, { kind, label: "The spread", bounds: { atLeast: 0 } }, path);
