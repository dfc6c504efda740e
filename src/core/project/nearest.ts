/** What a mistyped word may have meant. */

/** Up to three of the known words that are near, nearest first. */
export function nearest(word: string, known: readonly string[]): string[] {
  const reach = Math.max(2, Math.floor(word.length / 4));
  return known
    .map((one) => ({ one, distance: editDistance(word.toLowerCase(), one.toLowerCase()) }))
    .filter(({ distance }) => distance <= reach)
    .sort((a, b) => a.distance - b.distance)
    .slice(0, 3)
    .map(({ one }) => one);
}

/** Letters to insert, delete or replace to turn one word into the other [-]. Source: Levenshtein 1966, by rows. */
export function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
