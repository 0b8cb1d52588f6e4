import { createPortal } from 'react-dom';
import { printed } from './shell/state/printing.ts';
import { useStore } from './shell/state/store.ts';
import styles from './printed.module.css';

/** What is printed, beside all that is on the screen: on paper it stands alone. */
export function Printed() {
  const content = useStore(printed, (state) => state);
  if (content === null) return null;
  return createPortal(
    <div className={styles.printed} data-printed>
      {content}
    </div>,
    document.body,
  );
}
