/**
 * Where arrays come from. An array of some numbers takes longer to make than to fill with them, so what makes many at once cuts them
 * out of one.
 */

/** Gives an array of so many zeros. */
export type Room = (size: number) => Float64Array;

/** Each array by itself. */
export const separately: Room = (size) => new Float64Array(size);

/** Arrays cut out of one with `total` numbers; what is asked for beyond comes by itself. */
export function sharedRoom(total: number): Room {
  const whole = new Float64Array(total);
  let used = 0;
  return (size) => {
    if (used + size > total) return new Float64Array(size);
    used += size;
    return whole.subarray(used - size, used);
  };
}
