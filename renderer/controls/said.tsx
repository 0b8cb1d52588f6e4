import { Fragment, createElement } from 'react';
import type { ReactNode } from 'react';
import { inFigures } from '../../core/model/language.ts';
import { saidAround } from '../../core/model/say.ts';

/** A sentence of the program (`say`) round parts that are no plain text, such as a key or a link. */
export function said(sentence: TemplateStringsArray, ...values: readonly ReactNode[]): ReactNode {
  const parts = saidAround(sentence, values);
  return createElement(
    Fragment,
    null,
    ...parts.map((part) => (typeof part === 'number' ? inFigures(String(part)) : part)),
  );
}
