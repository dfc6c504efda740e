/** Shares and reserves as a person reads them. */
import { formatNumber } from "../../core/index.ts";

/** 0.26: "26.0 %". */
export const percent = (value: number, digits = 3): string => `${formatNumber(100 * value, { digits })}\u202f%`;

/** A small share whose digits mean nothing. */
export const roundPercent = (value: number): string => (Math.abs(value) < 5e-3 ? `0\u202f%` : percent(value, 2));

/** A reserve, the natural logarithm of a ratio, without its sign: "9.4 %", "a factor of 3.4". */
export function reserveShare(reserve: number): string {
  const more = Math.expm1(Math.abs(reserve));
  return more < 1 ? percent(more, 2) : `a factor of ${formatNumber(1 + more, { digits: 2 })}`;
}
