/** The keyboard map, by where a key works. */

export interface KeyGroup {
  readonly where: string;
  readonly keys: readonly { readonly key: string; readonly does: string }[];
}

export const keyWords = {
  title: "Keys",
  close: "close",
  single: "single keys lead to pages",
  singleHint: "off: only keys with Ctrl work, and this map opens by its word",
} as const;

export const keyMap: readonly KeyGroup[] = [
  {
    where: "Anywhere",
    keys: [
      { key: "?", does: "this map" },
      { key: "1 … 9", does: "the pages from Shelf to Records" },
      { key: "[ and ]", does: "the page before, the page after" },
      { key: "F1", does: "in a field: what its term means; else all words" },
      { key: "Ctrl+Z, Ctrl+Shift+Z", does: "undo, redo" },
      { key: "Ctrl+S", does: "save as a file" },
      { key: "Ctrl+O", does: "open a file" },
      { key: "Escape", does: "closes what is open over the page" },
    ],
  },
  {
    where: "On a ring of the drawing",
    keys: [
      { key: "Arrow keys", does: "a step; ten with Shift" },
      { key: "Enter", does: "in a value: takes it" },
    ],
  },
  {
    where: "On a chart",
    keys: [
      { key: "Arrow keys, Page up and down", does: "read along the curve; ten points with Shift" },
      { key: "Home, End", does: "its ends" },
      { key: "+ and −", does: "zoom around what is read" },
      { key: "0 or Escape", does: "the whole chart" },
    ],
  },
  {
    where: "On the moving diaphragm",
    keys: [
      { key: "Arrow keys", does: "turn and tilt; more with Shift" },
      { key: "Space", does: "lets it run, holds it" },
    ],
  },
];
