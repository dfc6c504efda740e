/** Light and readout of a project, in SI. */
import { pow } from "../numerics/power.ts";
import type { Light, Polarizer, Readout, Receiver, WavePlate } from "../parts/readout/readout.ts";
import type { MicrophoneInSi } from "./microphoneInSi.ts";

type LightInSi = NonNullable<MicrophoneInSi["light"]>;
type ReadoutInSi = NonNullable<MicrophoneInSi["readout"]>;
type PolarizerInSi = NonNullable<ReadoutInSi["polarizer"]>;

/** 10^(dB / 10) of a ratio of powers. */
const powerRatio = (decibel: number): number => pow(10, decibel / 10);

export function lightOf(light: LightInSi, wavelength: number): Light {
  return {
    wavelength,
    launched: light.launched ?? null,
    transmission: powerRatio(-(light.loss ?? 0)),
    relativeIntensity: light.relativeIntensity ?? null,
    noiseCorner: light.noiseCorner ?? null,
    linewidth: light.linewidth ?? null,
    fiberMode: light.fiber?.mode ?? null,
    fiberCrosstalk: light.fiber?.crosstalk === undefined ? null : powerRatio(-light.fiber.crosstalk),
  };
}

export function readoutOf(readout: ReadoutInSi): Readout {
  const { rejection } = readout;
  return {
    kind: readout.kind ?? "polarimetric",
    outputs: readout.outputs ?? "both",
    normalized: readout.normalized ?? false,
    // Without a given rejection the difference is ideal.
    rejection: rejection === undefined ? 0 : pow(10, -rejection / 20),
    bias: readout.bias ?? null,
    visibility: readout.visibility ?? 1,
    polarizer: polarizerOf(readout.polarizer),
    analyzer: polarizerOf(readout.analyzer),
    powerRatio: powerRatio(readout.imbalance ?? 0),
    wavePlate: wavePlateOf(readout.wavePlate),
    pathDifference: readout.pathDifference ?? 0,
    servo: servoOf(readout.servo),
    receiver: receiverOf(readout.receiver ?? {}),
  };
}

/** Without a given extinction the polarizer is ideal. */
const polarizerOf = (polarizer: PolarizerInSi | undefined): Polarizer => ({
  angle: polarizer?.angle ?? 0,
  leak: polarizer?.extinction === undefined ? 0 : powerRatio(-polarizer.extinction),
});

const wavePlateOf = (plate: ReadoutInSi["wavePlate"]): WavePlate | null =>
  plate === undefined || plate === null
    ? null
    : { retardation: plate.retardation ?? 0, angle: plate.angle ?? Math.PI / 2 };

const servoOf = (servo: ReadoutInSi["servo"]): Readout["servo"] =>
  servo === undefined || servo === null ? null : { range: servo.range ?? 0, corner: servo.corner ?? 0 };

const receiverOf = (receiver: NonNullable<ReadoutInSi["receiver"]>): Receiver => ({
  responsivity: receiver.responsivity ?? null,
  resistor: receiver.resistor ?? null,
  voltageNoise: receiver.voltageNoise ?? null,
  currentNoise: receiver.currentNoise ?? null,
  bandwidth: receiver.bandwidth ?? null,
  bits: receiver.bits ?? null,
  fullScale: receiver.fullScale ?? null,
  sampling: receiver.sampling ?? null,
});
