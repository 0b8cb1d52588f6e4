import { useRef, useState } from 'react';
import { lowered, say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import { linkLabel, linkMissWords } from '../../core/measure/words/chain-words.ts';
import { whyWithdrawn } from '../../core/measure/catalogue/where-read.ts';
import { keyOfLink } from '../../core/measure/goals/chain.ts';
import { sourceSentence } from '../../core/measure/goals/goals-source.ts';
import type { Chain } from '../../core/model/goals.ts';
import { VIEW_LABELS } from '../../core/model/words.ts';
import { isolated } from '../../core/model/isolated.ts';
import { tellDone } from '../shell/state/messages.ts';
import { newChain, withInserted, without } from './state/goals-edit.ts';
import { changeChain, changeGoals, ownGoals } from './state/goals.ts';
import { AddByReading } from './goals-add.tsx';
import { ChainEditor } from './goals-chain-editor.tsx';
import styles from './goals-page.module.css';
import lay from '../controls/lay.module.css';
import { Button } from '../controls/button.tsx';

/** What hangs together, link by link; one chain at a time is open to be changed. */
export function GoalsChains({ chains }: { readonly chains: readonly Chain[] }) {
  const [opened, setOpened] = useState<number | null>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const remove = (chain: Chain, index: number): void => {
    setOpened(null);
    heading.current?.focus();
    changeGoals({ chains: without(chains, index) });
    tellDone(say`The chain "${isolated(chain.name)}" is taken out of your goals.`, {
      label: say`Put it back`,
      run: () => changeGoals({ chains: withInserted(ownGoals.get().goals.chains, index, chain) }),
      waits: true,
    });
  };
  return (
    <section className={styles.part} aria-label={say`Cause and effect`}>
      <h3 ref={heading} tabIndex={-1}>{say`Cause and effect`}</h3>
      <p
        className={lay.soft}
      >{say`Chains of readings, the cause before what it brings about. On the bench each link is held against the swing; that one causes the next is your word, not a measurement.`}</p>
      <AddByReading
        what={say`Add a chain that starts with it`}
        onAdd={(reading) => {
          changeGoals({ chains: [...chains, newChain(reading)] });
          setOpened(chains.length);
        }}
      />
      <ul className={styles.group}>
        {chains.map((chain, index) => (
          <li key={index} className={styles.row}>
            <ChainInWords chain={chain} />
            <div className={styles.actions}>
              <Button
                small
                expanded={opened === index}
                label={
                  opened === index
                    ? say`Close the chain ${isolated(chain.name)}`
                    : say`Change the chain ${isolated(chain.name)}`
                }
                onPress={() => setOpened(opened === index ? null : index)}
              >
                {opened === index ? say`Close` : say`Change`}
              </Button>
              <Button
                small
                label={say`Remove the chain ${isolated(chain.name)}`}
                onPress={() => remove(chain, index)}
              >{say`Remove`}</Button>
            </div>
            {opened === index ? <ChainEditor chain={chain} onChange={(part) => changeChain(index, part)} /> : null}
          </li>
        ))}
      </ul>
    </section>
  );
}

function ChainInWords({ chain }: { readonly chain: Chain }) {
  const source = sourceSentence(chain.basis);
  return (
    <div className={styles.said}>
      <h4>{chain.name}</h4>
      <ol className={styles.links}>
        {chain.links.map((link, place) => {
          const why = whyWithdrawn(keyOfLink(link));
          return (
            <li key={place}>
              {linkLabel(link)}{' '}
              <span className={lay.soft}>
                {lowered(VIEW_LABELS[link.view])}, {linkMissWords(link)}
              </span>
              {link.words === '' ? '' : `: ${link.words}`}
              {why === null ? null : <p role="note">{said`No longer read here. ${why}`}</p>}
            </li>
          );
        })}
      </ol>
      {chain.leadsTo === '' ? null : (
        <p>
          <strong>{say`Leads to.`}</strong> {chain.leadsTo}
        </p>
      )}
      {source === null ? null : <p className={lay.soft}>{source}</p>}
    </div>
  );
}
