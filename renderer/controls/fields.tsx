import {
  CheckboxButton,
  CheckboxField,
  FieldError,
  Input,
  Label,
  RadioButton,
  RadioField,
  RadioGroup,
  Text,
  TextArea,
  TextField,
} from 'react-aria-components';
import type { ReactNode } from 'react';
import { useId } from 'react';
import styles from './fields.module.css';

interface TextProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly hint?: string;
  /** What is wrong with what was typed. */
  readonly trouble?: string | null;
  readonly required?: boolean;
  readonly long?: boolean;
  readonly maxLength?: number;
  readonly autoFocus?: boolean;
  readonly type?: 'text' | 'date';
  /** Offered values; any other may be typed. */
  readonly offers?: readonly string[];
}

/** A line (or, when `long`, a few lines) of text with its label above. */
export function TextEntry(props: TextProps) {
  const offers = useId();
  return (
    <TextField
      className={styles.field ?? ''}
      value={props.value}
      onChange={props.onChange}
      isRequired={props.required ?? false}
      {...(props.trouble === undefined
        ? {}
        : { isInvalid: props.trouble !== null, validationBehavior: 'aria' as const })}
      type={props.type ?? 'text'}
      autoFocus={props.autoFocus ?? false}
      {...(props.maxLength === undefined ? {} : { maxLength: props.maxLength })}
    >
      <Label className={styles.label ?? ''}>{props.label}</Label>
      {props.long === true ? (
        <TextArea dir="auto" className={`${styles.input ?? ''} ${styles.area ?? ''}`} />
      ) : (
        <Input dir="auto" className={styles.input ?? ''} {...(props.offers === undefined ? {} : { list: offers })} />
      )}
      {props.offers === undefined ? null : (
        <datalist id={offers}>
          {props.offers.map((offer) => (
            <option key={offer} value={offer} />
          ))}
        </datalist>
      )}
      {props.hint === undefined ? null : (
        <Text slot="description" className={styles.hint ?? ''}>
          {props.hint}
        </Text>
      )}
      <FieldError className={styles.trouble ?? ''}>{props.trouble}</FieldError>
    </TextField>
  );
}

/** One of a few, all in sight. */
export function Choice<T extends string>(props: {
  readonly label: string;
  readonly value: T | null;
  readonly options: readonly { readonly value: T; readonly label: string }[];
  readonly onChange: (value: T) => void;
}) {
  return (
    <RadioGroup
      className={styles.field ?? ''}
      value={props.value}
      onChange={(value) => {
        const option = props.options.find((entry) => entry.value === value);
        if (option !== undefined) props.onChange(option.value);
      }}
    >
      <Label className={styles.label ?? ''}>{props.label}</Label>
      <div className={styles.choices}>
        {props.options.map((option) => (
          <RadioField key={option.value} value={option.value}>
            <RadioButton className={styles.choice ?? ''}>{option.label}</RadioButton>
          </RadioField>
        ))}
      </div>
    </RadioGroup>
  );
}

/** One of many, from the system's own list. */
export function Picker<T extends string>(props: {
  readonly label: string;
  readonly value: T | '';
  readonly options: readonly { readonly value: T; readonly label: string }[];
  /** Words for "none". Without them there is no such choice. */
  readonly none?: string;
  readonly onChange: (value: T | null) => void;
}) {
  const id = useId();
  return (
    <div className={styles.field}>
      <label className={styles.label} htmlFor={id}>
        {props.label}
      </label>
      <select
        id={id}
        className={styles.input}
        value={props.value}
        onChange={(event) => {
          const option = props.options.find((entry) => entry.value === event.target.value);
          props.onChange(option?.value ?? null);
        }}
      >
        {props.none === undefined ? null : <option value="">{props.none}</option>}
        {props.options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </div>
  );
}

export function Check(props: {
  readonly children: ReactNode;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
  readonly disabled?: boolean;
  readonly label?: string;
}) {
  return (
    <CheckboxField
      isSelected={props.checked}
      onChange={props.onChange}
      isDisabled={props.disabled ?? false}
      {...(props.label === undefined ? {} : { 'aria-label': props.label })}
    >
      <CheckboxButton className={styles.check ?? ''}>{props.children}</CheckboxButton>
    </CheckboxField>
  );
}
