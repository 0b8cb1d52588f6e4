import { say } from '../../core/model/say.ts';
import { honestyTable, powerTable, triedWords, VERDICT_WORTH } from '../../core/report/verdict-worth.ts';
import type { WorthTable } from '../../core/report/verdict-worth.ts';
import { Fold } from '../controls/fold.tsx';
import styles from './verdict-worth.module.css';

/** How often such verdicts are right, from trials against a body in space; folded, for who wants to know. */
export function VerdictWorthFold() {
  return (
    <Fold head={say`For the technically minded: what a verdict is worth`}>
      <div className={styles.worth}>
        <p>{triedWords(VERDICT_WORTH)}</p>
        <Table caption={say`How often it is right where nothing changed`} table={honestyTable(VERDICT_WORTH)} />
        <Table caption={say`How often a change is seen`} table={powerTable(VERDICT_WORTH)} />
      </div>
    </Fold>
  );
}

function Table({ caption, table: { head, rows } }: { readonly caption: string; readonly table: WorthTable }) {
  return (
    <table>
      <caption>{caption}</caption>
      <thead>
        <tr>
          {head.map((cell) => (
            <th key={cell} scope="col">
              {cell}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, ...cells]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            {cells.map((cell, place) => (
              <td key={place}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
