import { expect, test } from "vitest";
import { sharedRoom } from "./room.ts";

test("arrays out of shared room are zeros, of the size asked for, and lie apart", () => {
  const room = sharedRoom(5);
  const [first, second, beyond] = [room(2), room(3), room(4)];
  first.fill(1);
  second.fill(2);
  beyond.fill(3);
  expect([...first, ...second, ...beyond]).toEqual([1, 1, 2, 2, 2, 3, 3, 3, 3]);
  expect(first.buffer).toBe(second.buffer);
});
