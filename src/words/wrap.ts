/** Breaks a text at blanks (not at those that keep a number and its unit together) so that no line is longer than `width`, unless one word is. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/[ \t\n]+/).filter((part) => part !== "")) {
    if (line !== "" && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  if (line !== "") lines.push(line);
  return lines;
}

/** Wrapped lines, the first after `mark`, the others indented as far. */
export function hanging(mark: string, text: string, width: number): string[] {
  const indent = " ".repeat(mark.length);
  return wrap(text, width - mark.length).map((line, i) => `${i === 0 ? mark : indent}${line}`);
}
