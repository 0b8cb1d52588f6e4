import { useEffect, useState } from 'react';
import { say } from '../../core/model/say.ts';
import { app } from './state/app-state.ts';
import type { Message } from './state/app-state.ts';
import { cancelJob } from './state/jobs.ts';
import { lifeOf } from './state/message-life.ts';
import { dismissMessage } from './state/messages.ts';
import { useStore } from './state/store.ts';
import styles from './app.module.css';
import { Button } from '../controls/button.tsx';

/** Running jobs with how far they are, each of which can be stopped. */
export function JobBars() {
  const jobs = useStore(app, (state) => state.jobs);
  return jobs.map((job) => {
    const part = job.total === null || job.total <= 0 ? null : Math.min(1, job.done / job.total);
    return (
      <div key={job.jobId} className={styles.bar}>
        <div
          role="progressbar"
          aria-label={job.label}
          aria-valuemin={0}
          aria-valuemax={100}
          {...(part === null ? {} : { 'aria-valuenow': Math.round(part * 100) })}
          className={styles.track}
        >
          {part === null ? (
            <div className={`${styles.fill ?? ''} ${styles.waiting ?? ''}`} />
          ) : (
            <div className={styles.fill} style={{ width: `${String(part * 100)}%` }} />
          )}
        </div>
        <p>{job.label}</p>
        <Button
          small
          label={say`Cancel: ${job.label}`}
          onPress={() => {
            cancelJob(job.jobId);
          }}
        >{say`Cancel`}</Button>
      </div>
    );
  });
}

/**
 * What the program has to say to the coach, a sentence each, and what can be done next. One that asks for nothing goes by
 * itself, but not while the pointer or the focus rests on it, nor while the window is not looked at.
 */
export function MessageBar() {
  const messages = useStore(app, (state) => state.messages);
  return messages.map((message) => <Shown key={`${message.kind} ${message.text}`} message={message} />);
}

function Shown({ message }: { readonly message: Message }) {
  const [kept, setKept] = useState(false);
  useEffect(() => {
    const life = kept ? null : lifeOf(message);
    if (life === null) return;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const count = (): void => {
      clearTimeout(timer);
      if (document.visibilityState === 'visible') timer = setTimeout(() => dismissMessage(message), life);
    };
    count();
    document.addEventListener('visibilitychange', count);
    return () => {
      clearTimeout(timer);
      document.removeEventListener('visibilitychange', count);
    };
  }, [message, kept]);
  const { nextStep } = message;
  return (
    <div
      role={message.kind === 'trouble' ? 'alert' : 'status'}
      className={`${styles.bar ?? ''} ${styles[message.kind] ?? ''}`}
      onPointerEnter={() => setKept(true)}
      onPointerLeave={(event) => setKept(event.currentTarget.contains(document.activeElement))}
      onFocus={() => setKept(true)}
      onBlur={(event) => setKept(event.currentTarget.matches(':hover'))}
    >
      <p>{message.text}</p>
      {nextStep === null ? null : (
        <Button
          look="main"
          onPress={() => {
            dismissMessage(message);
            nextStep.run();
          }}
        >
          {nextStep.label}
        </Button>
      )}
      <Button onPress={() => dismissMessage(message)}>{say`Close`}</Button>
    </div>
  );
}
