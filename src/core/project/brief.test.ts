import { expect, it } from "vitest";
import { readBrief } from "./brief.ts";
import { demoText } from "./demo.ts";
import { loadProject } from "./load.ts";

function briefOf(text: string) {
  const project = loadProject(text);
  if (!project.ok) throw new Error(project.problems.map(({ message }) => message).join(" "));
  return readBrief(project.value);
}

it("a brief is read into SI, levels in dB re 20 uPa", () => {
  const brief = briefOf(demoText);
  expect(brief.band).toEqual({ from: 50, to: 7000, withinDb: 2, must: true });
  expect(brief.sensitivity).toEqual({ atLeast: 0.65e-3, at: 1000, must: false });
  expect(brief.damping).toEqual({ atLeast: 0.4, atMost: 0.9, must: false });
  expect(brief.noise?.atMostDb).toBeCloseTo(50, 12);
  expect(brief.loudest?.atLeastDb).toBeCloseTo(140, 12);
  expect(brief.loudest).toMatchObject({ distortion: 0.03, at: 1000 });
  expect(brief.vibration?.atMostDb).toBeCloseTo(75, 12);
  expect(brief.strength).toEqual({ atLeast: 4, must: false });
  expect(brief.site).toMatchObject({
    pressure: [90000, 105000],
    humidity: [0.2, 0.8],
    staticOverpressure: 2000,
    rise: 10,
  });
  expect(brief.site.temperature?.map((kelvin) => Math.round(kelvin * 100))).toEqual([28815, 30815]);
  expect(brief.site.precautions).toEqual(["strong-magnet", "laser"]);
});

it("a project without a brief asks for nothing", () => {
  const brief = briefOf('{ "format": "glassdrum-project", "version": 1 }');
  expect(brief).toMatchObject({
    band: null,
    sensitivity: null,
    reference: 1000,
    noise: null,
    site: { temperature: null },
  });
});

it("the frequency of the sensitivity is the reference of band, noise and loudest sound", () => {
  const brief = briefOf(
    '{ "format": "glassdrum-project", "version": 1, "brief": { "sensitivity": { "at": "500 Hz" }, "loudest": {}, "noise": {} } }',
  );
  expect(brief.reference).toBe(500);
  expect(brief.loudest).toEqual({ atLeastDb: null, distortion: 0.03, at: 500, must: false });
  expect(brief.noise).toEqual({ atMostDb: null, must: false });
});
