import { describe, expect, it } from "vitest";
import { described, microphone, said } from "../../../tests/describedDemo.ts";

describe("what lies around the diaphragm", () => {
  it.each([
    [{ "microphone.front.holes": '[{ "length": "0.2 mm" }]' }, "missing-value microphone.front.holes[0].diameter"],
    [{ "microphone.front.cavity": '{ "volume": "7 mm^3" }' }, "missing-value microphone.front.cavity.surface"],
    [
      { "microphone.back.vent": '{ "shape": "slit", "length": "3 mm", "width": "1 mm" }' },
      "missing-value microphone.back.vent.height",
    ],
    [{ "microphone.back.leak": '{ "height": "2 um", "width": "5 mm" }' }, "missing-value microphone.back.leak.length"],
    [
      { "microphone.front.holes": '[{ "diameter": "6 mm", "length": "0.2 mm" }]' },
      "hole-outside microphone.front.holes[0].diameter",
    ],
    [
      { "microphone.film.backPlate": '{ "holes": { "diameter": "0.8 mm", "pitch": "0.8 mm", "length": "0.5 mm" } }' },
      "overlapping-holes microphone.film.backPlate.holes.pitch",
    ],
    [{ "microphone.film.backPlate": "{}" }, "empty-back-plate microphone.film.backPlate"],
  ])("%j is refused with its path", (values, problem) => {
    expect(said(described(values))).toEqual([problem]);
  });

  it.each([
    [{ "microphone.body": "{}" }, ["missing-value microphone.body.diameter", "missing-value microphone.body.shape"]],
    [{ "microphone.body": '{ "shape": "sphere", "diameter": "2 mm" }' }, ["body-too-small microphone.body.diameter"]],
    [
      { "microphone.body": '{ "shape": "sphere", "diameter": "13 mm", "length": "5 mm" }' },
      ["unused-value microphone.body.length"],
    ],
    [
      { "microphone.body": '{ "shape": "cylinder", "diameter": "13 mm", "length": "20 mm" }' },
      ["short-body microphone.body.length"],
    ],
    [{ "microphone.body": '{ "shape": "cylinder", "diameter": "13 mm", "length": "40 mm" }' }, []],
    [{ "microphone.body": '{ "shape": "cylinder", "diameter": "13 mm" }' }, []],
  ])("a body: %j", (values, expected) => {
    expect([...said(described(values))].sort()).toEqual(expected);
  });

  it.each([
    ['{ "hole": { "diameter": "0.4 mm", "length": "0.3 mm" } }', []],
    ['{ "hole": { "diameter": "0.4 mm", "length": "0.3 mm", "at": ["1 mm", "0 mm"] } }', ["off-center-hole at"]],
    ['{ "hole": { "diameter": "0.4 mm", "length": "0.3 mm", "at": ["90 mm", "0 mm"] } }', ["hole-outside diameter"]],
    ['{ "hole": { "diameter": "90 mm", "length": "0.3 mm" } }', ["hole-outside diameter"]],
    ['{ "hole": { "length": "0.3 mm" } }', ["missing-value diameter"]],
  ])("one hole in the wall: %s", (plate, expected) => {
    const paths = expected.map((one) => one.replace(" ", " microphone.film.backPlate.hole."));
    expect(said(described({ "microphone.film.backPlate": plate }))).toEqual(paths);
  });

  it("a back plate is one kind of wall", () => {
    const plate = '{ "hole": { "diameter": "0.4 mm", "length": "0.3 mm" }, "admittance": "1e-5 m/(Pa s)" }';
    expect(said(described({ "microphone.film.backPlate": plate }))).toEqual([
      "two-back-plates microphone.film.backPlate",
    ]);
  });

  it.each([
    [{ "microphone.front": "{}" }, ["empty-front microphone.front"]],
    [{ "microphone.front": '{ "holes": [], "cavity": null }' }, ["empty-front microphone.front"]],
    [{ "microphone.back": '{ "vent": null }' }, ["empty-back microphone.back"]],
    [
      { "microphone.back": '{ "cavity": { "volume": "800 mm^3", "surface": "400 mm^2" } }' },
      ["impossible-cavity microphone.back.cavity.surface"],
    ],
    [
      {
        "microphone.front":
          '{ "holes": [{ "diameter": "1 mm", "length": "1 mm" }, { "diameter": "0.6 mm", "length": "1 mm", "at": ["0.5 mm", "0.6 mm"] }] }',
      },
      ["overlapping-holes microphone.front.holes[1].at"],
    ],
    [
      {
        "microphone.front":
          '{ "holes": [{ "diameter": "1 mm", "length": "1 mm" }, { "diameter": "0.6 mm", "length": "1 mm", "at": ["0.5 mm", "0.7 mm"] }] }',
      },
      [],
    ],
  ])("a room must be one: %j", (values, expected) => {
    expect(said(described(values))).toEqual(expected);
  });

  it("a leak comes from the front unless it says otherwise", () => {
    const leak = '{ "height": "2 um", "width": "5 mm", "length": "1 mm" }';
    expect(microphone({ "microphone.back.leak": leak }).back?.leak?.from).toBe("front");
  });
});
