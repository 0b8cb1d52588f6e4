import { say } from '../../core/model/say.ts';
import { formatPlacing } from '../../core/measure/words/format.ts';
import { placingSpreads, pooledPlacing } from '../../core/measure/repeat/placing-spread.ts';
import { BODY_POINT_INFO } from '../../core/model/body-points.ts';
import type { RepeatFrame } from '../../core/model/repeat-check.ts';
import styles from './repeat-page.module.css';
import lay from '../controls/lay.module.css';

/** The placing error of each body point, and of all together. */
export function PlacingTable({ frames }: { readonly frames: readonly RepeatFrame[] }) {
  const pooled = pooledPlacing(frames);
  return (
    <>
      <p
        className={lay.soft}
      >{say`Click error: how far your clicks on one point scatter, across and up or down alike, as a standard deviation in pixels of a picture 1080 lines high. The ± beside it says how sure so many placings make it.`}</p>
      <table className={styles.table} aria-label={say`Click error of each body point`}>
        <thead>
          <tr>
            <th scope="col">{say`Body point`}</th>
            <th scope="col">{say`Click error`}</th>
          </tr>
        </thead>
        <tbody>
          {placingSpreads(frames).map(({ point, sd, freedom }) => (
            <tr key={point}>
              <th scope="row">{BODY_POINT_INFO[point].label}</th>
              <td>{formatPlacing(sd, freedom)}</td>
            </tr>
          ))}
        </tbody>
        {pooled === null ? null : (
          <tfoot>
            <tr>
              <th scope="row">{say`All together`}</th>
              <td>{formatPlacing(pooled.sd, pooled.freedom)}</td>
            </tr>
          </tfoot>
        )}
      </table>
    </>
  );
}
