/** `wanted` within `least` and `most` [px], whole. */
export const between = (least: number, wanted: number, most: number): number =>
  Math.round(Math.min(Math.max(wanted, least), most));
