import styles from './cautions.module.css';

/** The usual cautions of the trade, where a coach begins. Local rules and licensed practitioners come first. */
export function Cautions() {
  return (
    <aside className={styles.cautions} aria-label="Before a lesson">
      <h3>Before a lesson</h3>
      <ul>
        <li>{CONSENT}</li>
        <li>Keep everyone well away from a swinging club, children most of all; the rules of your place come first.</li>
        <li>
          Baybook measures, it does not diagnose. Pain in the back, a knee or anywhere: stop, and have a licensed
          practitioner look at it.
        </li>
      </ul>
    </aside>
  );
}

/** Also stands where a clip is added. */
export const CONSENT =
  'Film only with consent; for a child, that of the child and of a parent or guardian. Keep clips safe, and delete them when asked.';
