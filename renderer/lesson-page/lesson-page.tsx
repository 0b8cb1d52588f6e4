import { useMemo } from 'react';
import { say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import type { BookSwing } from '../../core/model/book.ts';
import { sentences } from '../../core/report/letter.ts';
import { isEmptyPage } from '../../core/model/lesson-page.ts';
import { offeredFindings, otherReadings, sentLesson, type AskedBefore } from '../../core/report/sent-lesson.ts';
import { ask } from '../api.ts';
import { Button } from '../controls/button.tsx';
import { TextEntry } from '../controls/fields.tsx';
import { app } from '../shell/state/app-state.ts';
import { goBack } from '../shell/state/go-back.ts';
import { useStore } from '../shell/state/store.ts';
import { useAnswer } from '../shell/use-answer.ts';
import { useReport } from '../swing/use-report.ts';
import { Drills } from './drills.tsx';
import { Findings } from './findings.tsx';
import { GoesOut } from './goes-out.tsx';
import { KeyThoughts } from './key-thoughts.tsx';
import { setFilmNext } from './state/page-actions.ts';
import styles from './lesson-page.module.css';
import lay from '../controls/lay.module.css';

const MOST_TEXT = 1000;
const askEarlier = (swingId: string) => ask('page/earlier', { swingId });

/** What the lesson sends in the coach's words, beside its numbers. Every change is kept with the lesson and can be undone. */
export function LessonPage({ swing }: { readonly swing: BookSwing }) {
  const then = useStore(app, (state) => state.then);
  const report = useReport(swing, then)?.report ?? null;
  const came = useAnswer(swing.swing.id, askEarlier);
  const before = came !== null && 'answer' in came ? came.answer : null;
  const against = useReport(before?.swing === undefined ? null : swing, before?.swing ?? null)?.report ?? null;
  const asked = useMemo(
    () =>
      before === null
        ? null
        : {
            ...{ date: before.earlier.date, page: before.earlier.page },
            report: against?.source.then === null ? null : against,
          },
    [before, against],
  );
  const lesson = useMemo(
    () => (report === null ? null : sentLesson(report, swing.page, asked)),
    [report, swing.page, asked],
  );
  const offers = useMemo(() => (report === null ? [] : offeredFindings(report, swing.page)), [report, swing.page]);
  const readable = useMemo(() => (report === null ? [] : otherReadings(report, swing.page)), [report, swing.page]);
  if (swing.clips.length === 0 || (report !== null && report.now.length === 0)) return <NothingYet />;
  return (
    <div className={styles.layout}>
      <div className={styles.main}>
        <div className={styles.page}>
          <h2 className={styles.headline}>{lesson?.headline ?? say`Reading the swing`}</h2>
          {lesson === null || lesson.asked === null ? null : <Asked asked={lesson.asked} />}
          <Findings swing={swing} then={then} lesson={lesson} offers={offers} readable={readable} />
          <KeyThoughts thoughts={swing.page.keyThoughts} />
          <Drills drills={swing.page.drills} />
          <section className={styles.part} aria-label={say`Film for next time`}>
            <h3>{say`Film for next time`}</h3>
            <TextEntry
              label={say`What`}
              value={swing.page.filmNext.what}
              maxLength={MOST_TEXT}
              onChange={(what) => setFilmNext({ what })}
            />
            <TextEntry
              label={say`How`}
              value={swing.page.filmNext.how}
              maxLength={MOST_TEXT}
              onChange={(how) => setFilmNext({ how })}
            />
          </section>
        </div>
      </div>
      <GoesOut swing={swing} lesson={lesson} isEmpty={isEmptyPage(swing.page)} />
    </div>
  );
}

function NothingYet() {
  return (
    <div className={styles.main}>
      <div className={styles.page}>
        <div className={styles.empty}>
          <h2>{say`Nothing is read yet`}</h2>
          <p>{say`Here stands what the student gets: findings with their numbers, key thoughts, a drill. First mark the swing.`}</p>
          <Button look="main" onPress={goBack}>{say`Go to the lesson sheet`}</Button>
        </div>
      </div>
    </div>
  );
}

/** What the last lesson asked for, and whether it changed. */
function Asked({ asked }: { readonly asked: AskedBefore }) {
  return (
    <section className={`${styles.part ?? ''} ${styles.asked ?? ''}`} aria-label={say`Asked for last time`}>
      <h3>{said`Asked for on ${asked.date}`}</h3>
      <ul>
        {asked.findings.map(({ label, words, outcome }) => (
          <li key={label}>
            <strong>{label}</strong>: {outcome}
            {words === '' ? null : <p className={lay.soft}>{words}</p>}
          </li>
        ))}
      </ul>
      {asked.keyThoughts.length === 0 ? null : (
        <p className={lay.soft}>{said`Key thoughts: ${asked.keyThoughts.join(' / ')}`}</p>
      )}
      {asked.drills.length === 0 ? null : <p className={lay.soft}>{said`Drills: ${asked.drills.join(', ')}`}</p>}
      {asked.film.length === 0 ? null : <p className={lay.soft}>{said`To film: ${sentences(asked.film)}`}</p>}
    </section>
  );
}
