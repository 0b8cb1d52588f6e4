import { say } from '../../../core/model/say.ts';
import type { UnreadOfCell } from '../../../core/report/cell.ts';
import { PinToggle } from './pin-toggle.tsx';
import styles from './readings-panel.module.css';

/** What else can be read at a checkpoint, and what to place or name for it. */
export function MissingReadings({
  unread,
  open,
}: {
  readonly unread: readonly UnreadOfCell[];
  readonly open: boolean;
}) {
  const words = unread.length === 1 ? say`1 more can be read` : say`${String(unread.length)} more can be read`;
  return <Unread unread={unread} open={open} words={words} />;
}

/** Readings whose number is worth nothing, why, and what to do. What also cannot be right is asked about, unfolded. */
export function IdleReadings({ unread, open }: { readonly unread: readonly UnreadOfCell[]; readonly open: boolean }) {
  const words = unread.length === 1 ? say`1 not usable here` : say`${String(unread.length)} not usable here`;
  return <Unread unread={unread} open={open} words={words} />;
}

function Unread(props: { readonly unread: readonly UnreadOfCell[]; readonly open: boolean; readonly words: string }) {
  const { unread, open } = props;
  if (unread.length === 0) return null;
  return (
    <details className={styles.missing} open={open}>
      <summary>{props.words}</summary>
      <ul>
        {unread.map(({ reading, label, words, isPinned }) => (
          <li key={`${reading.id} ${reading.aspect}`}>
            {label}
            <span>{words}</span>
            {isPinned ? <PinToggle reading={reading} pin="pinned" /> : null}
          </li>
        ))}
      </ul>
    </details>
  );
}
