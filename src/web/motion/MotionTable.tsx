/** The numbers behind the moving diaphragm: a grid of nine by nine points. */
import type { JSX } from "solid-js";
import { type Field, formatNumber, formatQuantity } from "../../core/index.ts";
import type { Column } from "../../figure/tables.ts";
import { motionWords as words } from "../../words/en/motion.ts";
import { ChartTable } from "../bench/ChartTable.tsx";

const count = 9;

export function MotionTable(props: { readonly field: Field }): JSX.Element {
  return <ChartTable caption={words.table} columns={columns(props.field)} />;
}

function columns(field: Field): readonly Column[] {
  const { points, across, along, deflection, pressure } = field;
  const step = (points - 1) / (count - 1);
  const at = Array.from({ length: count * count }, (_, k) => {
    const [i, j] = [(k % count) * step, Math.floor(k / count) * step];
    return { index: j * points + i, x: (i / (points - 1) - 0.5) * across, y: (j / (points - 1) - 0.5) * along };
  });
  const size = (of: typeof deflection) => at.map(({ index }) => Math.hypot(of.re[index]!, of.im[index]!));
  const phase = (of: typeof deflection) =>
    at.map(({ index }) => (Math.atan2(of.im[index]!, of.re[index]!) * 180) / Math.PI);
  const millimeters = (value: number | null) =>
    formatQuantity(value, "length", { digits: 3, unit: "mm" }).split("\u202f")[0] ?? "";
  const degrees = (value: number | null) => formatNumber(value, { digits: 3 });
  const named = words.columns;
  const shape = field.parity !== null;
  return [
    { title: named.x, values: at.map(({ x }) => x), text: millimeters },
    { title: named.y, values: at.map(({ y }) => y), text: millimeters },
    {
      title: named.deflection,
      values: size(deflection),
      text: (value) =>
        shape ? formatNumber(value, { digits: 3 }) : `${formatQuantity(value, "length", { digits: 3 })}/Pa`,
    },
    { title: named.deflectionPhase, values: phase(deflection), text: degrees },
    ...(pressure === null
      ? []
      : [
          { title: named.pressure, values: size(pressure), text: degrees },
          { title: named.pressurePhase, values: phase(pressure), text: degrees },
        ]),
  ];
}
