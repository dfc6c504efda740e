/** The same field as a flat map, seen from the side of the sound: for browsers without solid bodies, and for who prefers it. */
import { createEffect, type JSX } from "solid-js";
import type { Field } from "../../core/index.ts";
import { paper } from "../shell/paper.ts";
import { atPhase, type ColorOf, colorAt, colored, paperScale } from "./moment.ts";

export function MapView(props: {
  readonly field: Field;
  readonly phase: number;
  readonly color: ColorOf;
  readonly peak: number;
  readonly says: string;
}): JSX.Element {
  let canvas!: HTMLCanvasElement;
  createEffect(() => {
    paper();
    const { field, phase, color, peak } = props;
    const { points } = field;
    canvas.width = points;
    canvas.height = points;
    const context = canvas.getContext("2d");
    if (context === null) return;
    const scale = paperScale(canvas);
    const image = context.createImageData(points, points);
    atPhase(colored(field, color), (phase * Math.PI) / 180).forEach((value, at) => {
      const [i, j] = [at % points, Math.floor(at / points)];
      // The first row of a picture is its upper one, y points upwards.
      const pixel = 4 * ((points - 1 - j) * points + i);
      colorAt(scale, value / (peak || 1)).forEach((part, c) => {
        image.data[pixel + c] = Math.round(255 * part);
      });
      image.data[pixel + 3] = 255;
    });
    context.putImageData(image, 0, 0);
  });
  return (
    <canvas
      ref={canvas}
      class="map"
      role="img"
      aria-label={props.says}
      style={{ "aspect-ratio": `${props.field.across} / ${props.field.along}` }}
    />
  );
}
