import { Button as AriaButton } from 'react-aria-components';
import type { ReactNode } from 'react';
import styles from './button.module.css';

export interface ButtonProps {
  readonly children: ReactNode;
  readonly onPress?: () => void;
  /** main: the one next step of a place. quiet: no frame. warning: takes something away. */
  readonly look?: 'main' | 'plain' | 'quiet' | 'warning';
  readonly small?: boolean;
  /** Spoken name, where the words on the button do not say it all. */
  readonly label?: string;
  /** What the word on it means, where the pointer rests; the name stays as it is. */
  readonly hint?: string;
  readonly disabled?: boolean;
  readonly type?: 'button' | 'submit';
  /** For a button that stays pressed, and looks so. */
  readonly pressed?: boolean;
  /** For a button that opens something below it. */
  readonly expanded?: boolean;
  readonly autoFocus?: boolean;
  readonly slot?: string;
}

export function Button({ small = false, ...props }: ButtonProps) {
  const look = props.look ?? (props.pressed === true ? 'main' : 'plain');
  const names = [styles.button, look === 'plain' ? '' : styles[look], small ? styles.small : ''];
  const { label, hint } = props;
  const told = hint ?? label;
  /** What the words on the button do not say shows when the pointer rests on it. */
  const titled = (element: HTMLButtonElement | null): void => {
    if (told === undefined) element?.removeAttribute('title');
    else element?.setAttribute('title', told);
  };
  return (
    <AriaButton
      ref={titled}
      className={names.join(' ')}
      type={props.type ?? 'button'}
      isDisabled={props.disabled ?? false}
      autoFocus={props.autoFocus ?? false}
      {...(props.onPress === undefined ? {} : { onPress: props.onPress })}
      {...(props.label === undefined ? {} : { 'aria-label': props.label })}
      {...(props.pressed === undefined ? {} : { 'aria-pressed': props.pressed })}
      {...(props.expanded === undefined ? {} : { 'aria-expanded': props.expanded })}
      {...(props.slot === undefined ? {} : { slot: props.slot })}
    >
      {props.children}
    </AriaButton>
  );
}
