import { useState } from 'react';
import type { ReactNode } from 'react';
import styles from './fold.module.css';

/** A part of a page that stands folded until its head is pressed. */
export function Fold({ head, children }: { readonly head: string; readonly children: ReactNode }) {
  const [opened, setOpened] = useState(false);
  return (
    <>
      <h3>
        <button type="button" className={styles.fold} aria-expanded={opened} onClick={() => setOpened(!opened)}>
          {head}
        </button>
      </h3>
      {opened ? children : null}
    </>
  );
}
