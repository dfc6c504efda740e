/** Names and values, one line each. */
import { For, type JSX } from "solid-js";

export function Rows(props: {
  readonly rows: readonly { readonly name: string; readonly value: string }[];
}): JSX.Element {
  return (
    <table class="light-rows">
      <tbody>
        <For each={props.rows}>
          {({ name, value }) => (
            <tr>
              <th scope="row">{name}</th>
              <td>{value}</td>
            </tr>
          )}
        </For>
      </tbody>
    </table>
  );
}
