/** A typed formula to its tree. */

export type FormulaNode =
  | { readonly is: "number"; readonly value: number }
  | { readonly is: "name"; readonly name: string }
  | { readonly is: "call"; readonly name: string; readonly of: FormulaNode }
  | {
      readonly is: "two";
      readonly by: "+" | "-" | "*" | "/" | "^";
      readonly left: FormulaNode;
      readonly right: FormulaNode;
    };

/** `at`: place in the text, from 0. */
export type ParsedFormula =
  | { readonly ok: true; readonly node: FormulaNode }
  | { readonly ok: false; readonly at: number; readonly needed: string };

const deepest = 100;

/** Precedence as in mathematics: ^ before the sign, before * and /, before + and -; ^ from the right. */
export function parseFormula(text: string, functions: readonly string[]): ParsedFormula {
  const split = signsOf(text);
  if (!split.ok) return split;
  const { signs } = split;
  let at = 0;
  let depth = 0;
  const next = () => signs[at]?.text;
  const stop = (needed: string): never => {
    throw new Stop(signs[at]?.at ?? text.length, needed);
  };
  const expect = (sign: string) => {
    if (next() !== sign) stop(`"${sign}"`);
    at += 1;
  };
  const two = (by: "+" | "-" | "*" | "/" | "^", left: FormulaNode, right: FormulaNode): FormulaNode => ({
    is: "two",
    by,
    left,
    right,
  });
  function sum(): FormulaNode {
    let node = product();
    for (let by = next(); by === "+" || by === "-"; by = next()) {
      at += 1;
      node = two(by, node, product());
    }
    return node;
  }
  function product(): FormulaNode {
    let node = signed();
    for (let by = next(); by === "*" || by === "/"; by = next()) {
      at += 1;
      node = two(by, node, signed());
    }
    return node;
  }
  function signed(): FormulaNode {
    const sign = next();
    if (sign !== "-" && sign !== "+") return power();
    at += 1;
    const of = nested(signed);
    return sign === "+" ? of : two("-", { is: "number", value: 0 }, of);
  }
  function power(): FormulaNode {
    const base = atom();
    if (next() !== "^") return base;
    at += 1;
    return two("^", base, nested(signed));
  }
  function nested(read: () => FormulaNode): FormulaNode {
    depth += 1;
    if (depth > deepest) stop(`at most ${deepest} brackets within each other`);
    const node = read();
    depth -= 1;
    return node;
  }
  function atom(): FormulaNode {
    const sign = signs[at];
    if (sign === undefined) return stop("a number, a name or a bracket");
    if (sign.text === "(") {
      at += 1;
      const inner = nested(sum);
      expect(")");
      return inner;
    }
    if (/^[\d.]/.test(sign.text)) {
      at += 1;
      return { is: "number", value: Number(sign.text) };
    }
    if (!/^[A-Za-z_]/.test(sign.text)) return stop("a number, a name or a bracket");
    at += 1;
    if (next() !== "(")
      return sign.text.toLowerCase() === "pi" ? { is: "number", value: Math.PI } : { is: "name", name: sign.text };
    const name = sign.text.toLowerCase();
    if (!functions.includes(name)) {
      at -= 1;
      return stop(`one of the functions ${functions.join(", ")}`);
    }
    expect("(");
    const of = nested(sum);
    expect(")");
    return { is: "call", name, of };
  }
  try {
    const node = sum();
    if (at < signs.length) stop("an operator or the end");
    return { ok: true, node };
  } catch (error) {
    if (error instanceof Stop) return { ok: false, at: error.at, needed: error.needed };
    throw error;
  }
}

/** Leaves the descent where the text goes wrong. */
class Stop extends Error {
  readonly at: number;
  readonly needed: string;
  constructor(at: number, needed: string) {
    super(needed);
    this.at = at;
    this.needed = needed;
  }
}

interface Sign {
  readonly at: number;
  readonly text: string;
}
type SignList = { readonly ok: true; readonly signs: readonly Sign[] } | Extract<ParsedFormula, { ok: false }>;

/** Square brackets are round ones; ** is ^. */
function signsOf(text: string): SignList {
  const pattern = /\s*(\d+\.?\d*(?:[eE][+-]?\d+)?|\.\d+(?:[eE][+-]?\d+)?|[A-Za-z_]\w*|\*\*|[-+*/^()[\]])/y;
  const signs: Sign[] = [];
  const end = text.trimEnd().length;
  while (pattern.lastIndex < end) {
    const from = pattern.lastIndex;
    const found = pattern.exec(text);
    if (found === null) return { ok: false, at: from, needed: "numbers, names, + - * / ^ and brackets" };
    const sign = found[1]!;
    const plain = { "**": "^", "[": "(", "]": ")" }[sign] ?? sign;
    signs.push({ at: pattern.lastIndex - sign.length, text: plain });
  }
  return { ok: true, signs };
}
