import { useRef } from 'react';
import type { DragEvent } from 'react';
import { say } from '../../core/model/say.ts';
import { ask } from '../api.ts';
import { attempt, tellDone } from '../shell/state/messages.ts';
import styles from './drag-out.module.css';

/**
 * Carries a file out of the window by the mouse; what keys do instead stands beside it. `prepare` answers with the path of
 * the file once that is there, or null where it may not go out.
 */
export function DragOut({ prepare }: { readonly prepare: () => Promise<string | null> }) {
  const held = useRef(false);
  const carry = async (): Promise<void> => {
    held.current = true;
    const letGo = (): void => void (held.current = false);
    window.addEventListener('pointerup', letGo, { once: true });
    try {
      const path = await prepare();
      if (path === null) return;
      if (held.current) await ask('drag/start', { path });
      else tellDone(say`Keep the button pressed until the file is ready, then carry it out.`);
    } finally {
      window.removeEventListener('pointerup', letGo);
    }
  };
  return (
    <span
      draggable
      className={styles.grip}
      title={say`Drag it into a message or a folder`}
      onDragStart={(event: DragEvent) => {
        // The program drags a file in place of the page, which would drag its words.
        event.preventDefault();
        void attempt(carry);
      }}
    >
      <span aria-hidden="true">⠿</span>
      {say`Drag out`}
    </span>
  );
}
