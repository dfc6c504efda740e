/** Bytes turned, dropped, doubled, cut: a few at once. */
export function damage(bytes: Uint8Array, random: () => number): Uint8Array {
  let list = Array.from(bytes);
  for (let k = 0; k < 1 + 4 * random(); k++) {
    const at = Math.floor(random() * list.length);
    const way = Math.floor(random() * 5);
    if (way === 0) list[at] = Math.floor(256 * random());
    if (way === 1) list.splice(at, 1 + Math.floor(40 * random()));
    if (way === 2) list.splice(at, 0, ...list.slice(at, at + Math.floor(60 * random())));
    if (way === 3) list = list.slice(0, Math.max(1, at));
    if (way === 4) list.splice(at, 0, ...Array.from({ length: 8 }, () => Math.floor(256 * random())));
  }
  return Uint8Array.from(list);
}
