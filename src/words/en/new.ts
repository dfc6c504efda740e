/** The answer of `new` in words. */
export interface NewText {
  readonly file: string;
  /** What the file holds: path, value as written, label. */
  readonly values: readonly { readonly path: string; readonly value: string; readonly label: string }[];
}

export function newLines({ file, values }: NewText): string[] {
  const paths = Math.max(0, ...values.map(({ path }) => path.length));
  const texts = Math.max(0, ...values.map(({ value }) => value.length));
  return [
    `Wrote ${file}. What stands in it:`,
    ...values.map(({ path, value, label }) => `  ${path.padEnd(paths)}  ${value.padEnd(texts)}  ${label}`),
    `Next: glassdrum predict ${file}`,
  ];
}
