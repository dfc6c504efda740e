/** How one value of a project is typed on a page. */
export interface FieldSpec {
  /** "microphone.film.gap" */
  readonly path: string;
  /** In place of the label that the path has: for words and materials. */
  readonly label?: string;
  /** A text of many words. */
  readonly wide?: boolean;
  /** One of these, instead of typing. */
  readonly choices?: readonly string[];
  /** What a choice writes where it is not the word itself. */
  readonly writes?: Readonly<Record<string, string>>;
  /** What an empty field means: this value at that path; null: the file says nothing there. */
  readonly empty?: { readonly path: string; readonly value: string | null; readonly says?: string };
}
