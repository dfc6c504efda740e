import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Outcome, pathText } from "../problem.ts";
import { demoText } from "./demo.ts";
import { describe as describeProject } from "./describe.ts";
import { changeValue, loadProject, type Project, projectText } from "./load.ts";
import { fieldPaths, readPath } from "./lookUp.ts";
import { editDistance, nearest } from "./nearest.ts";
import { findPath, type ValuePath, vary } from "./paths.ts";

function taken<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
  return outcome.value;
}

const demo = taken(loadProject(demoText));
const bare = taken(loadProject('{ "format": "glassdrum-project", "version": 1 }'));
const path = (text: string): ValuePath => taken(findPath(text));
const code = (outcome: Outcome<unknown>) => (outcome.ok ? "" : outcome.problems.map((problem) => problem.code).join());

describe("paths", () => {
  it("name a value with its kind, bounds and label", () => {
    expect(path("microphone.film.gap")).toMatchObject({
      kind: "length",
      bounds: { above: 0 },
      label: "Air gap",
      text: "microphone.film.gap",
    });
    expect(path("air.humidity")).toMatchObject({ kind: "fraction", bounds: { atLeast: 0, atMost: 1 } });
    expect(path("brief.noise.atMost").kind).toBe("soundLevel");
    expect(path("brief.site.temperature[1]").kind).toBe("temperature");
    expect(path("materials.our-sheet.density").kind).toBe("density");
    expect(path('materials["a.b"].density').steps).toEqual(["materials", "a.b", "density"]);
    expect(path("microphone.guide[1].at").kind).toBe("length");
    expect(path("microphone.diaphragm.edges.ends.rotation").kind).toBe("rotationStiffness");
    expect(path("microphone.film.backPlate.admittance").kind).toBe("admittance");
    expect(path("microphone.front.holes[0].at[1]").kind).toBe("length");
  });

  it("read in SI, defaults included", () => {
    expect(taken(path("microphone.film.gap").read(demo))).toBe(38e-6);
    expect(taken(path("microphone.guide[0].at").read(demo))).toBe(2.6e-3);
    expect(taken(path("air.temperature").read(bare))).toBe(296.15);
    expect(taken(path("brief.site.pressure[0]").read(demo))).toBe(9e4);
    expect(code(path("microphone.film.gap").read(bare))).toBe("no-value");
    expect(code(path("microphone.guide.width").read(bare))).toBe("no-value");
    expect(code(path("microphone.diaphragm.edges.sides.rotation").read(demo))).toBe("no-value");
  });

  it("write in the unit that the file uses", () => {
    const written = (text: string, value: number, digits?: number, project: Project = demo) => {
      const changed = taken(path(text).write(project, value, digits === undefined ? {} : { digits }));
      const after = projectText(changed).split("\n");
      return projectText(project)
        .split("\n")
        .flatMap((line, i) => (line === after[i] ? [] : [after[i]]))
        .join();
    };
    expect(written("microphone.film.gap", 51.23456e-6, 3)).toContain('"gap": "51.2 um"');
    expect(written("microphone.guide.length", 5e-4)).toContain('"length": "0.5 mm"');
    expect(written("air.temperature", 300.15)).toContain('"temperature": "27 degC"');
    expect(written("microphone.diaphragm.lossFactor", 0.002)).toContain('"lossFactor": 0.002');
    expect(written("brief.noise.atMost", 20e-6 * 10 ** 2, 4)).toContain('"atMost": "40 dB"');
    expect(written("microphone.film.gap", 38e-6, 3, bare)).toContain('{ "film": { "gap": "38 um" } }');
    expect(code(path("microphone.film.gap").write(demo, -1))).toBe("out-of-range");
    expect(code(path("microphone.film.gap").write(demo, Number.NaN))).toBe("not-finite");
  });

  it("that name no value are problems, with what is near", () => {
    expect(code(findPath("microphone.film"))).toBe("not-a-value");
    expect(code(findPath("microphone.readout.outputs"))).toBe("not-a-value");
    expect(code(findPath("microphone.film.gap.x"))).toBe("unknown-path");
    expect(code(findPath("microphone.film[0]"))).toBe("unknown-path");
    expect(code(findPath("a b"))).toBe("unreadable-path");
    expect(code(findPath(""))).toBe("unreadable-path");
    expect(code(findPath("__proto__.x"))).toBe("unknown-path");
    expect(code(findPath("microphone.constructor"))).toBe("unknown-path");
    const near = findPath("microphone.diaphragm.thicknes");
    expect(near.ok ? "" : near.problems[0]?.message).toContain("microphone.diaphragm.thickness");
  });

  it("are read back from their text", () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.constantFrom("film", "gap", "our-sheet"), fc.nat({ max: 99 })), { minLength: 1 }),
        (steps) => {
          const read = readPath(pathText(["a", ...steps]));
          return read.ok && JSON.stringify(read.value) === JSON.stringify(["a", ...steps]);
        },
      ),
      { seed: 20261125 },
    );
  });

  it("each value of a design has a path that is found", () => {
    expect(new Set(fieldPaths()).size).toBe(fieldPaths().length);
    for (const text of fieldPaths()) expect(path(text).text).toBe(text);
    expect(fieldPaths()).toContain("microphone.film.gap");
    expect(fieldPaths()).toContain("brief.band.to");
  });
});

describe("varying a project", () => {
  const names = [
    "microphone.diaphragm.thickness",
    "microphone.film.gap",
    "air.temperature",
    "microphone.light.wavelength",
    "materials.our-sheet.density",
    "microphone.diaphragm.edges.sides.rotation",
    "microphone.guide[0].at",
  ];

  it("starts at the project's own values", () => {
    const variation = taken(vary(demo, names));
    expect(variation.start).toEqual([30e-6, 38e-6, 296.15, 633e-9, 2510, null, 2.6e-3]);
  });

  it("gives the microphone that the same values written into the file give", () => {
    const variation = taken(vary(demo, names));
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.9, max: 0.999, noNaN: true }), { minLength: 7, maxLength: 7 }),
        (factors) => {
          const values = factors.map((factor, i) => factor * (variation.start[i] ?? 1));
          const written = variation.paths.reduce((project, one, i) => taken(one.write(project, values[i] ?? 0)), demo);
          const direct = taken(variation.at(values));
          const byFile = taken(describeProject(written));
          expect(rounded(direct)).toEqual(rounded(byFile));
        },
      ),
      { seed: 20261125, numRuns: 40 },
    );
  });

  it("turns one pair of edges and leaves the other as the one word for both said", () => {
    const supported = taken(changeValue(demo, "microphone.diaphragm.edges", "supported"));
    const variation = taken(vary(supported, ["microphone.diaphragm.edges.sides.rotation"]));
    expect(taken(variation.at([2])).diaphragm.edges).toEqual({ sides: { rotation: 2 }, ends: "supported" });
  });

  it("lets everything follow that depends on a value", () => {
    const variation = taken(vary(demo, ["air.temperature"]));
    const warm = taken(variation.at([306.15]));
    expect(warm.air.density).toBeLessThan(taken(describeProject(demo)).air.density);
    // 10 K more of the same mismatch: N = -E h dalpha dT / (1 - nu), 13 K in place of 3 K.
    expect(warm.diaphragm.tension.across / taken(describeProject(demo)).diaphragm.tension.across).toBeCloseTo(
      13 / 3,
      9,
    );
  });

  it("refuses values out of their bounds, and paths that are none", () => {
    const variation = taken(vary(demo, ["microphone.film.gap", "microphone.guide.at"]));
    expect(code(variation.at([-1, 0]))).toBe("out-of-range");
    expect(code(variation.at([Number.NaN, 0]))).toBe("out-of-range");
    expect(code(variation.at([1e-5, 9e-3]))).toBe("guide-outside");
    expect(code(vary(demo, ["x", "microphone.film"]))).toBe("unknown-path,not-a-value");
  });
});

describe("lenses", () => {
  const microphone = taken(describeProject(demo));
  const alone = [
    "microphone.diaphragm.across",
    "microphone.diaphragm.along",
    "microphone.diaphragm.lossFactor",
    "microphone.diaphragm.edges.rotation",
    "microphone.diaphragm.edges.sides.rotation",
    "microphone.diaphragm.edges.ends.rotation",
    "microphone.guide.at",
    "microphone.guide.width",
    "microphone.guide.weight",
    "microphone.film.gap",
  ];

  it.each(alone)("%s sets what vary sets, and gets it back", (text) => {
    const { lens } = path(text);
    const value = 0.97 * (lens?.get(microphone) ?? 1e-6);
    const changed = lens?.set(microphone, value);
    expect(changed && lens?.get(changed)).toBe(value);
    expect(changed).toEqual(taken(taken(vary(demo, [text])).at([value])));
  });

  it.each([
    "microphone.diaphragm.thickness",
    "microphone.guide[0].depth",
    "microphone.light.wavelength",
    "air.temperature",
    "materials.our-sheet.density",
    "brief.band.to",
  ])("%s has none: other numbers follow from it", (text) => expect(path(text).lens).toBeNull());

  it("leave a microphone alone that has no place for the value", () => {
    const withoutFilm = { ...microphone, film: null };
    expect(path("microphone.film.gap").lens?.get(withoutFilm)).toBeNull();
    expect(path("microphone.film.gap").lens?.set(withoutFilm, 1e-6)).toBe(withoutFilm);
    expect(path("microphone.guide[3].at").lens?.get(microphone)).toBeNull();
  });
});

describe("near words", () => {
  // By hand, from the definition of the distance.
  it("count letters to insert, delete or replace", () => {
    expect(editDistance("kitten", "sitting")).toBe(3);
    expect(editDistance("", "gap")).toBe(3);
    expect(editDistance("gap", "gap")).toBe(0);
  });
  it("come nearest first", () => expect(nearest("gep", ["lap", "gap", "thickness"])).toEqual(["gap", "lap"]));
});

/** Numbers to 12 digits: a file keeps every bit, but offsets and prefixes round the last one. */
function rounded(value: unknown): unknown {
  return JSON.parse(
    JSON.stringify(value, (_, item: unknown) => (typeof item === "number" ? Number(item.toPrecision(12)) : item)),
  );
}
