/** The index profile that a project gives for a guide, or that its process makes. */
import { type Diffusion, diffusionAt } from "../parts/guide/diffusion.ts";
import { type Exchange, exchangedProfile, type Salt, salts } from "../parts/guide/exchange.ts";
import type { GuideLayer, Profile } from "../parts/guide/profile.ts";
import { answer, type Outcome, type Path, type Problem, refuse } from "../problem.ts";
import type { GuideInSi } from "./microphoneInSi.ts";

type ProfileInSi = NonNullable<GuideInSi["profile"]>;
type ProcessInSi = NonNullable<GuideInSi["process"]>;
type LayersInSi = ProfileInSi["layers"];

/** A profile and, where a bath makes it, how. */
export interface Made {
  readonly profile: Profile;
  readonly exchange: (Exchange & { readonly stress: number | null; readonly everywhere: boolean }) | null;
}

/** Null: neither profile nor process. Problems: `missing-value`, all in one pass. */
export function profileOf({ profile, process }: GuideInSi, path: Path): Outcome<Made | null> {
  if (profile !== undefined && profile !== null) return given(profile, [...path, "profile"]);
  if (process !== undefined && process !== null) return made(process, [...path, "process"]);
  return answer(null);
}

class Wanted {
  readonly problems: Problem[] = [];

  value(value: number | undefined, path: Path, example: string): number {
    if (value !== undefined) return value;
    this.problems.push({
      code: "missing-value",
      path,
      message: `"${path.at(-1)}" is missing here and nothing fills it. Give it, for example "${path.at(-1)}": ${example}.`,
    });
    return Number.NaN;
  }

  outcome<T>(value: T): Outcome<T> {
    return this.problems.length > 0 ? refuse(...this.problems) : answer(value);
  }
}

function given(profile: ProfileInSi, path: Path): Outcome<Made> {
  const wanted = new Wanted();
  const cover = profile.cover ?? 1;
  if (profile.kind === "layered") return layered(profile.layers, cover, path);
  return wanted.outcome({
    profile: {
      kind: profile.kind ?? "erfc",
      indexChange: wanted.value(profile.indexChange, [...path, "indexChange"], "0.009"),
      birefringence: profile.birefringence ?? 0,
      depth: wanted.value(profile.depth, [...path, "depth"], '"4 um"'),
      below: profile.below ?? 0,
      width: wanted.value(profile.width, [...path, "width"], '"4 um"'),
      edge: profile.edge ?? 0,
      cover,
    },
    exchange: null,
  });
}

function layered(layers: LayersInSi, cover: number, path: Path): Outcome<Made> {
  const wanted = new Wanted();
  const list = (layers ?? []).map((layer, i): GuideLayer => {
    const at = [...path, "layers", i];
    return {
      thickness: wanted.value(layer.thickness, [...at, "thickness"], '"2 um"'),
      index: wanted.value(layer.index, [...at, "index"], "1.53"),
      width: layer.width ?? null,
      beside: layer.beside ?? cover,
    };
  });
  if (list.length === 0)
    wanted.value(undefined, [...path, "layers"], '[{ "thickness": "2 um", "index": 1.53, "width": "3 um" }]');
  return wanted.outcome({ profile: { kind: "layered", layers: list, cover }, exchange: null });
}

function made(process: ProcessInSi, path: Path): Outcome<Made> {
  if (process.kind === "deposition") return layered(process.layers, 1, path);
  const wanted = new Wanted();
  const salt: Salt | null = process.salt ?? (process.diffusion === undefined ? "potassium" : null);
  const facts = salt === null ? null : salts[salt];
  const temperature = wanted.value(process.temperature, [...path, "temperature"], '"385 degC"');
  const exchange = {
    temperature,
    time: wanted.value(process.time, [...path, "time"], '"4 h"'),
    window: wanted.value(process.window, [...path, "window"], '"4 um"'),
    indexChange: wanted.value(
      process.indexChange ?? facts?.indexChange ?? undefined,
      [...path, "indexChange"],
      "0.009",
    ),
    birefringence: process.birefringence ?? facts?.birefringence ?? 0,
    diffusion: diffusionOf(process, facts?.diffusion ?? null, temperature),
    stress: process.stress ?? facts?.stress ?? null,
    everywhere: process.everywhere ?? false,
  };
  if (wanted.problems.length > 0) return refuse(...wanted.problems);
  return answer({ profile: exchangedProfile(exchange), exchange }, exchangeRemarks(process, salt, path));
}

/** A given coefficient belongs to `diffusionAt`, to the bath's own temperature where that is not said. */
function diffusionOf(process: ProcessInSi, facts: Diffusion | null, temperature: number): Diffusion {
  const { diffusion } = process;
  const activation = process.activation ?? facts?.activation ?? 0;
  if (diffusion !== undefined) return { coefficient: diffusion, at: process.diffusionAt ?? temperature, activation };
  return { ...(facts ?? { coefficient: Number.NaN, at: temperature }), activation };
}

function exchangeRemarks(process: ProcessInSi, salt: Salt | null, path: Path): Problem[] {
  if (salt === null || process.diffusion !== undefined) return [];
  return [
    {
      code: "diffusion-from-memory",
      path: [...path, "diffusion"],
      message: `Diffusion of ${salt}: ${salts[salt].source}. A trial piece in your own bath is worth more: measure it and give "diffusion".`,
    },
  ];
}

/**
 * The temperature at which an hour deepens a profile by one per cent [K]: D(T) 1 h = 2 % of D t; null without an activation energy.
 */
export function deepeningTemperature({ diffusion, temperature, time }: Exchange): number | null {
  if (diffusion.activation === 0) return null;
  const wanted = (0.02 * diffusionAt(diffusion, temperature) * time) / 3600;
  let [low, high] = [200, 2000];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (diffusionAt(diffusion, middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
