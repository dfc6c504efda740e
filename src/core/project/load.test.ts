import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Outcome } from "../problem.ts";
import { pathText } from "../problem.ts";
import { demoText } from "./demo.ts";
import { changeValue, largestFile, loadProject, type Project, projectBytes, projectText, removeValue } from "./load.ts";
import { fieldPaths } from "./lookUp.ts";
import { findPath } from "./paths.ts";
import { starterText } from "./starter.ts";
import { bytesOf } from "./utf8.ts";

const head = '"format": "glassdrum-project", "version": 1';
const file = (body: string) => `{ ${head}${body === "" ? "" : `, ${body}`} }`;
const codes = (outcome: Outcome<unknown>) => (outcome.ok ? [] : outcome.problems.map(({ code }) => code));
const at = (outcome: Outcome<unknown>) =>
  outcome.ok ? [] : outcome.problems.map(({ code, path }) => `${code} ${pathText(path)}`);
const noted = (outcome: Outcome<unknown>) =>
  outcome.ok ? outcome.remarks.map(({ code, path }) => `${code} ${pathText(path)}`) : at(outcome);

function loaded(text: string): Project {
  const project = loadProject(text);
  if (!project.ok) throw new Error(project.problems.map(({ message }) => message).join(" "));
  return project.value;
}

const demo = loaded(demoText);

describe("loading a project", () => {
  it("reads the demo and the starter without a remark", () => {
    expect(demo.remarks).toEqual([]);
    expect(loaded(starterText()).remarks).toEqual([]);
    expect(demo.file.notes).toContain("Invented");
  });

  it("needs format and version only", () => expect(loadProject(file("")).ok).toBe(true));

  it.each([
    ["an empty file", "", "empty-file"],
    ["no JSON", "glassdrum", "not-json"],
    ["a trailing comma", `{ ${head}, }`, "trailing-comma"],
    ["a repeated key", `{ ${head}, "title": "a", "title": "b" }`, "repeated-key"],
    ["NaN", file('"microphone": { "guide": { "weight": NaN } }'), "not-finite"],
    ["a list", "[]", "wrong-format"],
    ["another format", '{ "format": "other", "version": 1 }', "wrong-format"],
    ["no format", '{ "version": 1 }', "wrong-format"],
    ["no version", '{ "format": "glassdrum-project" }', "wrong-version"],
    ["a version in quotes", '{ "format": "glassdrum-project", "version": "1" }', "wrong-version"],
    ["version 0", '{ "format": "glassdrum-project", "version": 0 }', "wrong-version"],
    ["a newer version", '{ "format": "glassdrum-project", "version": 2, "microphone": 5 }', "newer-version"],
  ])("refuses %s", (_, text, code) => expect(codes(loadProject(text))).toEqual([code]));

  it.each([
    ['"microphone": { "film": { "gap": 38 } }', "no-unit microphone.film.gap"],
    ['"microphone": { "film": { "gap": "38" } }', "no-unit microphone.film.gap"],
    ['"microphone": { "film": { "gap": "38 Pa" } }', "wrong-unit microphone.film.gap"],
    ['"microphone": { "film": { "gap": "38 fathom" } }', "unknown-unit microphone.film.gap"],
    ['"microphone": { "film": { "gap": "NaN um" } }', "not-finite microphone.film.gap"],
    ['"microphone": { "film": { "gap": true } }', "wrong-type microphone.film.gap"],
    ['"microphone": { "film": { "gap": null } }', "wrong-type microphone.film.gap"],
    ['"microphone": { "diaphragm": { "thickness": "-30 um" } }', "out-of-range microphone.diaphragm.thickness"],
    ['"microphone": { "diaphragm": { "across": "0 mm" } }', "out-of-range microphone.diaphragm.across"],
    ['"microphone": { "diaphragm": { "lossFactor": -0.1 } }', "out-of-range microphone.diaphragm.lossFactor"],
    ['"microphone": { "diaphragm": { "edges": "clampd" } }', "unknown-word microphone.diaphragm.edges"],
    [
      '"microphone": { "diaphragm": { "edges": { "sides": { "rotation": 3 } } } }',
      "no-unit microphone.diaphragm.edges.sides.rotation",
    ],
    ['"microphone": { "diaphragm": null }', "wrong-type microphone.diaphragm"],
    ['"microphone": { "guide": [] }', "wrong-count microphone.guide"],
    ['"microphone": { "guide": [{ "at": "0 mm" }, { "at": 1 }] }', "no-unit microphone.guide[1].at"],
    ['"microphone": 5', "wrong-type microphone"],
    ['"air": { "temperature": "-300 degC" }', "out-of-range air.temperature"],
    ['"air": { "humidity": "120 %" }', "out-of-range air.humidity"],
    ['"materials": { "x": { "poissonRatio": 0.5 } }', "out-of-range materials.x.poissonRatio"],
    ['"materials": { "x": { "density": "2 g/cm^2" } }', "wrong-unit materials.x.density"],
    ['"materials": { "x": { "index": "1.5 m" } }', "wrong-type materials.x.index"],
    ['"brief": { "site": { "humidity": ["20 %"] } }', "wrong-count brief.site.humidity"],
    ['"brief": { "site": { "pressure": ["90 kPa", "100 kPa", 5] } }', "wrong-count brief.site.pressure"],
    ['"materials": "borosilicate"', "wrong-type materials"],
    ['"tolerances": [{ "kind": "normal" }]', "missing-key tolerances[0].path"],
    ['"tolerances": [{ "path": "microphone.film.gep" }]', "unknown-path tolerances[0].path"],
    ['"tolerances": [{ "path": "microphone.film" }]', "not-a-value tolerances[0].path"],
    ['"tolerances": [{ "path": "microphone film" }]', "unreadable-path tolerances[0].path"],
    ['"tolerances": [{ "path": "microphone.film.gap", "half": "2 Pa" }]', "wrong-unit tolerances[0].half"],
    ['"tolerances": [{ "together": ["microphone.film.gap", "x"] }]', "unknown-path tolerances[0].together[1]"],
    ['"choices": [{ "path": "microphone.film.gap", "from": ["1 um", 2] }]', "no-unit choices[0].from[1]"],
    [
      '"kept": [{ "changes": { "microphone.readout.outputs": "two" } }]',
      "unknown-word kept[0].changes.microphone.readout.outputs",
    ],
    [
      '"specimens": [{ "made": { "film": { "gap": { "value": "3 um", "standard": "1 Pa" } } } }]',
      "wrong-unit specimens[0].made.film.gap.standard",
    ],
    [
      '"specimens": [{ "free": [{ "path": "film.gap", "prior": { "between": ["1 um", "2 Pa"] } }] }]',
      "wrong-unit specimens[0].free[0].prior.between[1]",
    ],
    [
      '"specimens": [{ "records": [{ "recipe": { "columns": [{ "unit": "volts" }] } }] }]',
      "wrong-value specimens[0].records[0].recipe.columns[0].unit",
    ],
    ['"calibrations": [{ "level": "94 V" }]', "wrong-unit calibrations[0].level"],
  ])("%s is %s", (body, expected) => {
    const outcome = loadProject(file(body));
    expect(at(outcome)).toEqual([expected]);
    // Our own words, never those of the validating library.
    if (!outcome.ok) expect(outcome.problems[0]?.message).toMatch(/^(Found|There|"|A )/);
  });

  it("names all problems in one pass, those of the text too", () => {
    const text = `{ ${head}, "air": { "temperature": NaN, "pressure": "3 K" },
      "microphone": { "film": { "gap": "1" }, "diaphragm": { "thickness": "-1 um", } } }`;
    expect(at(loadProject(text)).sort()).toEqual([
      "no-unit microphone.film.gap",
      "not-finite air.temperature",
      "out-of-range microphone.diaphragm.thickness",
      "trailing-comma microphone.diaphragm",
      "wrong-unit air.pressure",
    ]);
  });

  it("keeps unknown keys and reports them with what is near", () => {
    const text = file('"microphone": { "film": { "gap": "3 um", "egdes": "open", "color": 1 } }, "x": {}');
    const project = loadProject(text);
    expect(noted(project)).toEqual([
      "unknown-key microphone.film.egdes",
      "unknown-key microphone.film.color",
      "unknown-key x",
    ]);
    expect(project.ok && project.remarks[0]?.message).toContain('Did you mean "edges"?');
    expect(project.ok && projectText(project.value)).toBe(text);
  });

  it("says where a comma was read as a decimal comma and might be a group mark", () => {
    expect(noted(loadProject(file('"microphone": { "film": { "gap": "1,500 mm" } }')))).toEqual([
      "decimal-comma microphone.film.gap",
    ]);
  });

  it("keeps a byte-order mark, with a remark", () => {
    const bytes = bytesOf(`\ufeff${demoText}`);
    const project = loadProject(bytes);
    expect(noted(project)).toEqual(["byte-order-mark "]);
    expect(project.ok && [...projectBytes(project.value)]).toEqual([...bytes]);
    const changed = project.ok ? changeValue(project.value, "title", "x") : project;
    expect(changed.ok && projectText(changed.value).startsWith("\ufeff{")).toBe(true);
  });

  it("gives back the same bytes, whatever their layout", () => {
    for (const text of [
      demoText,
      demoText.replaceAll("\n", "\r\n"),
      JSON.stringify(JSON.parse(demoText)),
      `${demoText}\n\t `,
    ]) {
      const bytes = bytesOf(text);
      const project = loadProject(bytes);
      expect(project.ok && [...projectBytes(project.value)]).toEqual([...bytes]);
    }
  });

  it("refuses a file of 200 MB before it reads it", () => {
    const start = performance.now();
    expect(codes(loadProject(new Uint8Array(200e6)))).toEqual(["too-large"]);
    expect(performance.now() - start).toBeLessThan(1000);
    expect(codes(loadProject(new Uint8Array(largestFile)))).toEqual(["not-json"]);
  });

  it("refuses bytes that are no text", () => {
    expect(codes(loadProject(Uint8Array.from([0x7b, 0xff, 0x7d])))).toEqual(["not-utf8"]);
  });

  it("never throws on a damaged file", () => {
    fc.assert(
      fc.property(fc.nat(), fc.nat({ max: 40 }), fc.string({ maxLength: 3 }), (start, length, put) => {
        const from = start % demoText.length;
        const outcome = loadProject(demoText.slice(0, from) + put + demoText.slice(from + length));
        expect(outcome.ok || outcome.problems.length > 0).toBe(true);
        for (const { message } of outcome.ok ? outcome.remarks : outcome.problems)
          expect(message).not.toMatch(/NaN of|undefined|\[object/);
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

describe("changing a project", () => {
  const line = (outcome: Outcome<Project>) => {
    if (!outcome.ok) return at(outcome).join();
    const before = demoText.split("\n");
    const changed = projectText(outcome.value)
      .split("\n")
      .filter((text, i) => text !== before[i]);
    return changed.map((text) => text.trim()).join(" | ");
  };

  it("replaces that value's text only", () => {
    const changed = changeValue(demo, "microphone.film.gap", "50 um");
    expect(changed.ok && projectText(changed.value)).toBe(demoText.replace('"gap": "38 um"', '"gap": "50 um"'));
    expect(projectText(demo)).toBe(demoText);
  });

  it("takes JSON where it parses", () => {
    expect(line(changeValue(demo, "microphone.film", "null"))).toBe('"film": null,');
    expect(line(changeValue(demo, "microphone.film", '{ "gap": "9 um" }'))).toBe('"film": { "gap": "9 um" },');
    expect(line(changeValue(demo, "microphone.diaphragm.lossFactor", "0.02"))).toContain('"lossFactor": 0.02');
    expect(line(changeValue(demo, "title", "2026"))).toBe('"title": "2026",');
    expect(line(changeValue(demo, "title", 'a "b" \\'))).toBe('"title": "a \\"b\\" \\\\",');
    expect(line(changeValue(demo, "microphone.film.gap", " 1,5 mm "))).toContain('"gap": " 1,5 mm "');
  });

  it("takes one word for all edges apart where one pair changes", () => {
    expect(line(changeValue(demo, "microphone.film.edges.sides", "closed"))).toContain(
      '"edges": { "sides": "closed", "ends": "open" }',
    );
    expect(line(changeValue(demo, "microphone.diaphragm.edges.ends.rotation", "0.35 N"))).toContain(
      '"edges": { "sides": "clamped", "ends": { "rotation": "0.35 N" } }',
    );
    expect(line(changeValue(demo, "microphone.diaphragm.edges.rotation", "0.35 N"))).toContain(
      '"edges": { "rotation": "0.35 N" }',
    );
    const simple = loaded(file('"microphone": { "diaphragm": { "edges": "clamped" } }'));
    const turned = (path: string) => {
      const changed = changeValue(simple, path, "2 N");
      return changed.ok ? JSON.stringify(changed.value.file.microphone?.diaphragm?.edges) : "";
    };
    expect(turned("microphone.diaphragm.edges.rotation")).toBe('{"rotation":"2 N"}');
    expect(turned("microphone.diaphragm.edges.sides.rotation")).toBe('{"sides":{"rotation":"2 N"},"ends":"clamped"}');
  });

  it("adds what is missing and removes what is there", () => {
    const added = changeValue(demo, "air.density", "1.2 kg/m^3");
    expect(line(added)).toBe(
      '"air": { "temperature": "23 degC", "pressure": "101.325 kPa", "humidity": "50 %", "density": "1.2 kg/m^3" },',
    );
    const back = added.ok ? removeValue(added.value, "air.density") : added;
    expect(back.ok && projectText(back.value)).toBe(demoText);
    const same = removeValue(demo, "air.viscosity");
    expect(same.ok && same.value).toBe(demo);
    const small = changeValue(loaded(file("")), "microphone.film.gap", "3 um");
    expect(small.ok && projectText(small.value)).toBe(file('"microphone": { "film": { "gap": "3 um" } }'));
  });

  it("reads guide[0] of a guide that stands alone", () => {
    expect(line(changeValue(demo, "microphone.guide[0].at", "1 mm"))).toContain('"at": "1 mm"');
    const two = loaded(file('"microphone": { "guide": [{ "at": "0 mm" }, { "at": "1 mm" }] }'));
    const second = changeValue(two, "microphone.guide[1].at", "2 mm");
    expect(second.ok && second.value.file.microphone?.guide).toEqual([{ at: "0 mm" }, { at: "2 mm" }]);
    expect(codes(changeValue(two, "microphone.guide.at", "2 mm"))).toEqual(["no-such-item"]);
  });

  it.each([
    ["microphone.film.gep", "3 um", "unknown-path microphone.film.gep"],
    ["microphone..gap", "3 um", "unreadable-path "],
    ["", "3 um", "unreadable-path "],
    ["microphone.film.gap", "3", "no-unit microphone.film.gap"],
    ["microphone.film.gap", "-3 um", "out-of-range microphone.film.gap"],
    ["microphone.film.gap", "", "not-a-number microphone.film.gap"],
    ["microphone.diaphragm.material.density", "3 kg/m^3", "not-a-group microphone.diaphragm.material"],
    ["version", "2", "newer-version version"],
  ])("refuses %s = %j", (path, value, expected) => expect(at(changeValue(demo, path, value))).toEqual([expected]));

  it("says which path is near", () => {
    const outcome = changeValue(demo, "microphone.film.gep", "3 um");
    expect(outcome.ok ? "" : outcome.problems[0]?.message).toContain("Did you mean microphone.film.gap?");
    const short = changeValue(demo, "gap", "3 um");
    expect(short.ok ? "" : short.problems[0]?.message).toContain("microphone.film.gap");
  });

  it("keeps every other byte, whichever value is written", () => {
    const paths = fieldPaths().map((text) => {
      const path = findPath(text);
      if (!path.ok) throw new Error(text);
      return path.value;
    });
    const there = paths.filter((path) => path.read(demo).ok && path.text.split(".").length > 1);
    expect(there.length).toBeGreaterThan(50);
    fc.assert(
      fc.property(fc.constantFrom(...there), fc.double({ min: 0.5, max: 0.99, noNaN: true }), (path, factor) => {
        const old = path.read(demo);
        const value = (old.ok ? old.value : 0) * factor;
        const changed = path.write(demo, value);
        if (!changed.ok) return at(changed).every((text) => text.startsWith("out-of-range"));
        const text = projectText(changed.value);
        const same = commonEnds(demoText, text);
        const again = path.read(changed.value);
        return same >= demoText.length - 60 && again.ok && Math.abs(again.value - value) <= 1e-12 * Math.abs(value);
      }),
      { seed: 20261125, numRuns: 150 },
    );
  });
});

/** How many characters two texts share at their starts and ends. */
function commonEnds(a: string, b: string): number {
  let start = 0;
  while (start < Math.min(a.length, b.length) && a[start] === b[start]) start++;
  let end = 0;
  while (end < Math.min(a.length, b.length) - start && a.at(-1 - end) === b.at(-1 - end)) end++;
  return start + end;
}
