import { useEffect, useRef, useState } from 'react';
import type { RefObject } from 'react';
import { say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import { CATALOGUE } from '../../core/measure/catalogue/catalogue.ts';
import { checkpointsOf, viewsOf, whyWithdrawn } from '../../core/measure/catalogue/where-read.ts';
import { keyOfLink } from '../../core/measure/goals/chain.ts';
import { linkLabel, linkMissWords, missesOf } from '../../core/measure/words/chain-words.ts';
import { LINK_MISSES } from '../../core/model/goals.ts';
import type { Chain, ChainLink } from '../../core/model/goals.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import { linkAt, newLink, withEntry, withMoved, without } from './state/goals-edit.ts';
import { AddByReading } from './goals-add.tsx';
import styles from './goals-page.module.css';
import { Remark } from './goals-range-editor.tsx';
import { ASPECT_LABELS, MOST_LINKS, readingOptions, readName, withNow } from './goals-words.ts';
import { Button } from '../controls/button.tsx';
import { CheckedEntry } from '../controls/checked-entry.tsx';
import { Picker } from '../controls/fields.tsx';

/** All of one chain; what is sound is kept at once. */
export function ChainEditor(props: { readonly chain: Chain; readonly onChange: (part: Partial<Chain>) => void }) {
  const { chain, onChange: change } = props;
  const { links } = chain;
  const ref = useRef<HTMLDivElement>(null);
  useEffect(() => {
    ref.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  const list = useRef<HTMLOListElement>(null);
  const follow = useFollowedLink(list);
  const move = (place: number, by: -1 | 1): void => {
    change({ links: withMoved(links, place, by) });
    follow(place + by, by === -1 ? 0 : 1);
  };
  return (
    <div ref={ref} className={styles.editor} role="group" aria-label={say`Change this chain`}>
      <CheckedEntry
        label={say`Name`}
        value={chain.name}
        write={String}
        read={readName}
        onChange={(name) => change({ name })}
      />
      <ol ref={list} className={styles.linkEditors}>
        {links.map((link, place) => (
          <li key={place} aria-label={say`Link ${String(place + 1)}`}>
            <LinkEditor link={link} onChange={(changed) => change({ links: withEntry(links, place, changed) })} />
            <div className={styles.actions}>
              <Button
                small
                label={say`Link ${String(place + 1)}, ${linkLabel(link)}: earlier`}
                disabled={place === 0}
                onPress={() => move(place, -1)}
              >{say`Earlier`}</Button>
              <Button
                small
                label={say`Link ${String(place + 1)}, ${linkLabel(link)}: later`}
                disabled={place === links.length - 1}
                onPress={() => move(place, 1)}
              >{say`Later`}</Button>
              <Button
                small
                label={say`Remove link ${String(place + 1)}, ${linkLabel(link)}`}
                disabled={links.length === 1}
                onPress={() => {
                  change({ links: without(links, place) });
                  follow(Math.min(place, links.length - 2), 2);
                }}
              >{say`Remove`}</Button>
            </div>
          </li>
        ))}
      </ol>
      {links.length >= MOST_LINKS ? null : (
        <AddByReading what={say`Add a link`} onAdd={(reading) => change({ links: [...links, newLink(reading)] })} />
      )}
      <Remark label={say`Leads to, at the strike`} value={chain.leadsTo} onChange={(leadsTo) => change({ leadsTo })} />
      <Remark label={say`Where this is from`} value={chain.basis} onChange={(basis) => change({ basis })} />
    </div>
  );
}

/** Keeps the keyboard on a link that moves, or on the next one where it goes: on that button of it, or one that can be pressed. */
function useFollowedLink(list: RefObject<HTMLOListElement | null>): (place: number, button: number) => void {
  const [followed, setFollowed] = useState<{ readonly place: number; readonly button: number } | null>(null);
  useEffect(() => {
    if (followed === null) return;
    const buttons = list.current?.children[followed.place]?.querySelectorAll('button') ?? [];
    [buttons[followed.button], ...buttons].find((each) => each?.disabled === false)?.focus();
  }, [followed, list]);
  return (place, button) => setFollowed({ place, button });
}

function LinkEditor(props: { readonly link: ChainLink; readonly onChange: (link: ChainLink) => void }) {
  const { link } = props;
  const { aspects } = CATALOGUE[link.reading];
  const checkpoints = withNow(checkpointsOf(link.reading), link.checkpoint);
  const views = withNow(viewsOf(link.reading, [link.checkpoint]), link.view);
  const why = whyWithdrawn(keyOfLink(link));
  const change = (part: Partial<ChainLink>): void => props.onChange({ ...link, ...part });
  const sides = LINK_MISSES.filter((miss) => missesOf(link).includes(miss) || miss === link.miss);
  return (
    <div className={styles.link}>
      <Picker
        label={say`Reading`}
        value={link.reading}
        options={readingOptions(link.reading)}
        onChange={(reading) => {
          if (reading !== null) props.onChange({ ...newLink(reading), words: link.words });
        }}
      />
      <Picker
        label={say`Checkpoint`}
        value={link.checkpoint}
        options={checkpoints.map((value) => ({ value, label: CHECKPOINT_LABELS[value] }))}
        onChange={(checkpoint) => change(linkAt(link, checkpoint ?? link.checkpoint))}
      />
      {views.length < 2 ? null : (
        <Picker
          label={say`View`}
          value={link.view}
          options={views.map((value) => ({ value, label: VIEW_LABELS[value] }))}
          onChange={(view) => change({ view: view ?? link.view })}
        />
      )}
      {aspects.length < 2 ? null : (
        <Picker
          label={say`Of the reading`}
          value={link.aspect}
          options={aspects.map((value) => ({ value, label: ASPECT_LABELS[value] }))}
          onChange={(aspect) => change({ aspect: aspect ?? link.aspect })}
        />
      )}
      <Picker
        label={say`The miss is`}
        value={link.miss}
        options={sides.map((miss) => ({ value: miss, label: linkMissWords({ ...link, miss }) }))}
        onChange={(miss) => change({ miss: miss ?? link.miss })}
      />
      {why === null ? null : <p className={styles.wide}>{said`No longer read here. ${why}`}</p>}
      <div className={styles.wide}>
        <Remark label={say`In words`} value={link.words} onChange={(words) => change({ words })} />
      </div>
    </div>
  );
}
