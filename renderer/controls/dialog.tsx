import { Dialog as AriaDialog, Form, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { useEffect, useState } from 'react';
import type { ReactNode } from 'react';
import { say } from '../../core/model/say.ts';
import { holdForm } from '../shell/state/unfinished.ts';
import { Button } from './button.tsx';
import styles from './dialog.module.css';

/** A small window over the page that asks for something. Esc and a press beside it close it. */
export function Dialog(props: { readonly title: string; readonly onClose: () => void; readonly children: ReactNode }) {
  return (
    <ModalOverlay
      className={styles.veil ?? ''}
      isOpen
      isDismissable
      onOpenChange={(open) => {
        if (!open) props.onClose();
      }}
    >
      <Modal className={styles.modal ?? ''}>
        <AriaDialog className={styles.dialog ?? ''}>
          <Heading slot="title" className={styles.title ?? ''}>
            {props.title}
          </Heading>
          {props.children}
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
}

/** A dialog with fields and one button that does it. */
export function FormDialog(props: {
  readonly title: string;
  readonly doIt: string;
  readonly onDo: () => void;
  readonly onClose: () => void;
  readonly disabled?: boolean;
  /** What there is to do where the dialog cannot do its own: it takes the place of its button. */
  readonly instead?: { readonly label: string; readonly run: () => void } | null;
  readonly children: ReactNode;
}) {
  const { instead = null } = props;
  const [touched, setTouched] = useState(false);
  const { title } = props;
  useEffect(() => (touched ? holdForm(title) : undefined), [touched, title]);
  return (
    <Dialog title={title} onClose={props.onClose}>
      <div className={styles.whole ?? ''} onInput={() => setTouched(true)}>
        <Form
          className={styles.form ?? ''}
          onSubmit={(event) => {
            event.preventDefault();
            if (instead !== null) instead.run();
            else if (props.disabled !== true) props.onDo();
          }}
        >
          {props.children}
          <div className={styles.actions}>
            <Button onPress={props.onClose}>{say`Cancel`}</Button>
            <Button type="submit" look="main" disabled={instead === null && (props.disabled ?? false)}>
              {instead?.label ?? props.doIt}
            </Button>
          </div>
        </Form>
      </div>
    </Dialog>
  );
}

/** Asks before something is done that the coach alone can judge. */
export function AskDialog(props: {
  readonly title: string;
  readonly what: string;
  readonly doIt: string;
  readonly leave: string;
  readonly onDo: () => void;
  readonly onClose: () => void;
}) {
  return (
    <Dialog title={props.title} onClose={props.onClose}>
      <p>{props.what}</p>
      <div className={styles.actions}>
        <Button onPress={props.onClose} autoFocus>
          {props.leave}
        </Button>
        <Button look="main" onPress={props.onDo}>
          {props.doIt}
        </Button>
      </div>
    </Dialog>
  );
}

/** Asks before something is taken away for good. */
export function ConfirmDialog(props: {
  readonly title: string;
  readonly what: string;
  readonly doIt: string;
  readonly onDo: () => void;
  readonly onClose: () => void;
}) {
  return (
    <Dialog title={props.title} onClose={props.onClose}>
      <p>{props.what}</p>
      <div className={styles.actions}>
        <Button onPress={props.onClose} autoFocus>{say`Keep it`}</Button>
        <Button
          look="warning"
          onPress={() => {
            props.onDo();
            props.onClose();
          }}
        >
          {props.doIt}
        </Button>
      </div>
    </Dialog>
  );
}
