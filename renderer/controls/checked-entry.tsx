import { useRef, useState } from 'react';
import { FieldError, Input, Label, Text, TextField } from 'react-aria-components';
import styles from './fields.module.css';

/** What a text says, or what is wrong with it. */
export type Said<T> = { readonly value: T } | { readonly trouble: string };

/**
 * A line of text that is kept as something else. A sound text is kept with every key. One that says nothing sound stays
 * in the field with the trouble below it, and what was there before it was typed is kept again.
 */
export function CheckedEntry<T>(props: {
  readonly label: string;
  /** Whether the label is spoken only, where its place on the page shows what the field is. */
  readonly quietLabel?: boolean;
  readonly value: T;
  readonly write: (value: T) => string;
  readonly read: (text: string) => Said<T>;
  readonly onChange: (value: T) => void;
  readonly hint?: string;
  readonly numeric?: boolean;
}) {
  const { value, write, read } = props;
  /** What is typed, until it is left in a sound state. */
  const [draft, setDraft] = useState<string | null>(null);
  const before = useRef(value);
  const said = draft === null ? null : read(draft);
  const trouble = said !== null && 'trouble' in said ? said.trouble : null;
  return (
    <TextField
      className={styles.field ?? ''}
      value={draft ?? write(value)}
      isInvalid={trouble !== null}
      validationBehavior="aria"
      onChange={(text) => {
        setDraft(text);
        const found = read(text);
        const kept = 'value' in found ? found.value : before.current;
        if (write(kept) !== write(value)) props.onChange(kept);
      }}
      onFocus={() => {
        if (draft === null) before.current = value;
      }}
      onBlur={() => {
        if (trouble === null) setDraft(null);
      }}
      {...(props.quietLabel === true ? { 'aria-label': props.label } : {})}
    >
      {props.quietLabel === true ? null : <Label className={styles.label ?? ''}>{props.label}</Label>}
      <Input className={styles.input ?? ''} {...(props.numeric === true ? { inputMode: 'decimal' } : {})} />
      {props.hint === undefined ? null : (
        <Text slot="description" className={styles.hint ?? ''}>
          {props.hint}
        </Text>
      )}
      <FieldError className={styles.trouble ?? ''}>{trouble}</FieldError>
    </TextField>
  );
}
