/**
 * The microphone in SI: what `project/describe.ts` makes of a project file and what everything else computes with.
 *
 * Axes (docs/theory/conventions.md): y along the guide, x across it, z from the sound side into the device; origin at the
 * center of the diaphragm's mid-plane. Phasors are e^{+i omega t}. All numbers SI.
 */
import type { Air } from "../material/air.ts";
import type { Strength } from "../material/material.ts";
import type { BackPart, Body, FrontPart } from "../parts/acoustics/acoustics.ts";
import type { Diaphragm } from "../parts/diaphragm/diaphragm.ts";
import type { Film } from "../parts/film/film.ts";
import type { Guide } from "../parts/guide/guide.ts";
import type { Light, Readout } from "../parts/readout/readout.ts";
import type { Rest } from "./rest/rest.ts";

export interface Microphone {
  readonly diaphragm: Diaphragm;
  /** One or more guides whose outputs are summed with their weights. */
  readonly guides: readonly [Guide, ...Guide[]];
  readonly light: Light;
  readonly readout: Readout;
  readonly air: Air;
  /** Air film behind the diaphragm; null: nothing behind it. */
  readonly film: Film | null;
  /** What lies between the sound and the diaphragm; null: sound meets the diaphragm. */
  readonly front: FrontPart | null;
  /** What lies behind the film; null: ambient pressure. */
  readonly back: BackPart | null;
  /** Absent: none. */
  readonly load?: StaticLoad;
  /** The body that the sound meets; null: the pressure is given, nothing radiates or diffracts. */
  readonly body: Body | null;
  /** Strength of the sheet; absent: the project says nothing of it. */
  readonly strength?: Strength;
  /** Whether the sheet is glass, for which a strength may be assumed; absent: it is not. */
  readonly glass?: boolean;
}

/** What bends the diaphragm before sound does, the moment of its layers aside (`diaphragm.moment`). */
export interface StaticLoad {
  /** A pressure difference that stays, in front less behind [Pa]; 0 where only stressed layers bow the diaphragm. */
  readonly difference: number;
  /** Absent: the film's gap is still that as built (rest.ts). */
  readonly settled?: {
    /** Deflection at the center and on average [m]. */
    readonly center: number;
    readonly mean: number;
    /** The film's gap as built [m]; null without film. */
    readonly gap: number | null;
    readonly rest: Rest;
  };
}
