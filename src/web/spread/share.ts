/** Shares and reserves as a person reads them. */
import { formatNumber } from "../../core/index.ts";

/** 0.26: "26.0 %". */
export const percent = (value: number, digits = 3): string => `${formatNumber(100 * value, { digits })}\u202f%`;

/** A reserve, the natural logarithm of a ratio, as a share of what is asked: "9.4 %", without its sign. */
export const reserveShare = (reserve: number): string =>
  `${formatNumber(Math.abs(100 * Math.expm1(Math.abs(reserve))), { digits: 2 })}\u202f%`;
