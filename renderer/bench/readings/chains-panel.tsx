import { memo, useMemo, useState } from 'react';
import { lowered, say } from '../../../core/model/say.ts';
import { said } from '../../controls/said.tsx';
import type { BookSwing } from '../../../core/model/book.ts';
import { evaluateChain, keyOfLink } from '../../../core/measure/goals/chain.ts';
import type { EvaluatedChain, EvaluatedLink, LinkState } from '../../../core/measure/goals/chain.ts';
import {
  chainWords,
  LINK_STATE_MEANINGS,
  LINK_STATE_WORDS,
  linkLabel,
  linkMissWords,
  linkNeedWords,
} from '../../../core/measure/words/chain-words.ts';
import type { Figures } from '../../../core/measure/words/figures.ts';
import type { LessonReport } from '../../../core/report/lesson-report.ts';
import { sourceSentence } from '../../../core/measure/goals/goals-source.ts';
import { sameReading } from '../../../core/model/reading.ts';
import { VIEW_LABELS } from '../../../core/model/words.ts';
import { app } from '../../shell/state/app-state.ts';
import { openBench, showReading } from '../state/bench-actions.ts';
import { ownGoals } from '../../goals/state/goals.ts';
import { useStore } from '../../shell/state/store.ts';
import styles from './chains-panel.module.css';
import lay from '../../controls/lay.module.css';
import { showOnItsFrame } from './show-reading.ts';

/** Beside the word, so that a state is found at a glance; never without it. */
const SIGNS: Readonly<Record<LinkState, string>> = {
  seen: '●',
  'not seen': '○',
  'too close to call': '◐',
  'not measured': '–',
};

/** The goals' chains of cause and effect, held against the swing link by link. */
export const ChainsPanel = memo(function ChainsPanel(props: {
  readonly swing: BookSwing;
  readonly report: LessonReport;
}) {
  const { swing, report } = props;
  const [opened, setOpened] = useState(false);
  const goals = useStore(ownGoals, (state) => state.goals);
  const { club } = swing.lesson;
  const chains = useMemo(() => {
    const compared = report.comparisons.map(({ comparison }) => comparison);
    const read = { readings: report.now, comparisons: report.source.then === null ? null : compared, club };
    return goals.chains.map((chain) => evaluateChain(chain, goals, read));
  }, [goals, report, club]);
  if (chains.length === 0) return null;
  const begun = chains.filter(({ holds }) => holds > 0).length;
  return (
    <section className={lay.wide} aria-label={say`Cause and effect`} data-chains>
      <h2>
        <button type="button" className={styles.fold} aria-expanded={opened} onClick={() => setOpened(!opened)}>
          <span>{say`Cause and effect`}</span>
          <span className={lay.soft}>
            {begun === 0
              ? say`0 of ${String(chains.length)} show in this swing`
              : say`${String(begun)} of ${String(chains.length)} show in this swing`}
          </span>
        </button>
      </h2>
      {opened
        ? chains.map((chain, place) => (
            <ChainCard key={place} evaluated={chain} swing={swing} figures={report.figures} />
          ))
        : null}
    </section>
  );
});

function ChainCard(props: {
  readonly evaluated: EvaluatedChain;
  readonly swing: BookSwing;
  readonly figures: Figures;
}) {
  const { evaluated, swing, figures } = props;
  const { chain, links, holds } = evaluated;
  const source = sourceSentence(chain.basis);
  return (
    <section className={styles.chain} aria-label={chain.name}>
      <h3>{chain.name}</h3>
      <p className={lay.soft}>{chainWords(evaluated)}</p>
      <ol className={styles.links}>
        {links.map((link, place) => (
          <LinkRow key={place} evaluated={link} holds={place < holds} swing={swing} figures={figures} />
        ))}
        {chain.leadsTo === '' ? null : (
          <li className={styles.end}>
            <span className={lay.soft}>{say`In the words of your goals, not measured, all of it leads to:`}</span>
            <span>{chain.leadsTo}</span>
          </li>
        )}
      </ol>
      {source === null ? null : <p className={lay.soft}>{source}</p>}
    </section>
  );
}

function LinkRow(props: {
  readonly evaluated: EvaluatedLink;
  readonly holds: boolean;
  readonly swing: BookSwing;
  readonly figures: Figures;
}) {
  const { evaluated, holds, swing, figures } = props;
  const { link, state, reading } = evaluated;
  const shown = useStore(app, (each) => each.bench?.shownReading ?? null);
  const isShown = shown !== null && sameReading(shown, keyOfLink(link));
  const clip = swing.clips.find(({ view }) => view === link.view);
  const need = linkNeedWords(evaluated);
  const press = (): void => {
    if (clip === undefined) return;
    if (isShown) showReading(null);
    else if (reading !== null) showOnItsFrame(clip, reading);
    else openBench(clip.id, clip.checkpoints[link.checkpoint]?.index ?? placeOn(clip.id), link.checkpoint);
  };
  return (
    <li className={styles.link} {...(holds ? { 'data-holds': '' } : {})}>
      <button
        type="button"
        className={styles.press}
        aria-pressed={isShown}
        disabled={clip === undefined}
        onClick={press}
      >
        <span className={styles.state} title={LINK_STATE_MEANINGS[state]}>
          <span aria-hidden="true">{SIGNS[state]}</span> {LINK_STATE_WORDS[state]}
        </span>
        <span className={styles.name}>
          {linkLabel(link)}, {lowered(VIEW_LABELS[link.view])}
        </span>
        {reading === null ? null : <span className={styles.number}>{figures.reading(reading).text}</span>}
      </button>
      <p>
        <span className={lay.soft}>{said`Fault: ${linkMissWords(link)}${link.words === '' ? '.' : ':'}`}</span>{' '}
        {link.words}
      </p>
      {need === null ? null : <p className={styles.need}>{need}</p>}
    </li>
  );
}

/** Where one is already, if the clip is on the bench; else its first frame. */
function placeOn(clipId: string): number {
  const { bench } = app.get();
  return bench?.clipId === clipId ? bench.index : 0;
}
