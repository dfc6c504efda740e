/** How one value of a project is typed on a page. */
export interface FieldSpec {
  /** "microphone.film.gap" */
  readonly path: string;
  /** In place of the label that the path has: for words and materials. */
  readonly label?: string;
  /** One of these, instead of typing. */
  readonly choices?: readonly string[];
  /** What an empty field means: this value at that path. */
  readonly empty?: { readonly path: string; readonly value: string; readonly says: string };
}
