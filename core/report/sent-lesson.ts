import { JUDGEMENT_WORDS } from '../measure/words/words.ts';
import { say } from '../model/say.ts';
import { missSide, judgeWanted } from '../measure/goals/judge-wanted.ts';
import { isWordsOnly, wantedOf } from '../measure/goals/goals.ts';
import { isOfUse } from '../measure/doubts/of-use.ts';
import { fullLabelOf, VERDICT_WORDS } from '../measure/words/format.ts';
import { dayInWords } from '../model/day-in-words.ts';
import { isolated } from '../model/isolated.ts';
import type { Drill, Finding, LessonPage } from '../model/lesson-page.ts';
import { sameReading, type MeasuredReading, type ReadingKey } from '../model/reading.ts';
import type { Checkpoint, View } from '../model/words.ts';
import { STILL_CAUTIONS } from './captions.ts';
import { changedIn } from './changed.ts';
import type { LessonReport } from './lesson-report.ts';
import { shownReading, type ShownComparison } from './shown-reading.ts';

/** What a lesson says to the student, ready to be set: in the window, on the page, in a letter. Every number is read anew. */
export interface SentLesson {
  readonly title: string;
  readonly headline: string;
  readonly firstName: string;
  readonly date: string;
  readonly club: string;
  /** null: the lesson before asked for nothing. */
  readonly asked: AskedBefore | null;
  readonly findings: readonly SentFinding[];
  /** What changed since then, the clearest first; empty for one swing alone. */
  readonly changes: readonly SentChange[];
  /** What became of the rest, in one sentence; null where nothing else was compared. */
  readonly others: string | null;
  readonly keyThoughts: readonly string[];
  readonly drills: readonly Drill[];
  readonly filmNext: LessonPage['filmNext'];
  /** Never empty. */
  readonly cautions: readonly string[];
}

export interface SentFinding {
  readonly reading: ReadingKey;
  /** E.g. "Shoulders to spine at top, down the line". */
  readonly label: string;
  /** With its unit and ±; null where this swing has no number of use for it. */
  readonly number: string | null;
  /** "on target", "too low", "too high", "too close to call"; null where the goals want nothing of it. */
  readonly goal: string | null;
  /** "then 82° ± 3°, now 91° ± 3°, difference +9° ± 4°: changed"; null where it is not compared. */
  readonly change: string | null;
  readonly words: string;
}

export interface SentChange {
  readonly label: string;
  readonly then: string;
  readonly now: string;
  readonly difference: string;
  readonly verdict: string;
}

export interface AskedBefore {
  /** In words. */
  readonly date: string;
  readonly findings: readonly { readonly label: string; readonly words: string; readonly outcome: string }[];
  readonly keyThoughts: readonly string[];
  readonly drills: readonly string[];
  readonly film: readonly string[];
}

/** What was asked for before, and today's report against the swing that it was asked of; null: there is none to compare with. */
export interface AskedSource {
  /** ISO 8601. */
  readonly date: string;
  readonly page: LessonPage;
  readonly report: LessonReport | null;
}

/** Stand wherever a key thought, a posture or a drill goes out. */
export const LESSON_CAUTIONS: readonly string[] = [
  say`This is coaching advice, not medical advice. Warm up first and stay well within comfort.`,
  say`If anything hurts, stop and see a doctor or physiotherapist. With a bad back, knee, hip, shoulder or wrist, ask them before you try it.`,
  say`Look round before every swing: nobody near you, children most of all.`,
];

/** Still places of a page: where its findings are read, each once, the most important first. */
export function placesOf(
  findings: readonly Pick<Finding, 'reading'>[],
): readonly { readonly view: View; readonly checkpoint: Checkpoint }[] {
  const places = findings.map(({ reading: { view, checkpoint } }) => ({ view, checkpoint }));
  return places.filter(
    (place, index) =>
      places.findIndex(({ view, checkpoint }) => view === place.view && checkpoint === place.checkpoint) === index,
  );
}

export function sentLesson(report: LessonReport, page: LessonPage, asked: AskedSource | null): SentLesson {
  const { now } = report.source;
  const findings = page.findings.map((finding) => sentFinding(report, finding));
  const date = dayInWords(now.date);
  const { changed, worthALook, same, unsure } = changedIn(report);
  const firstName = isolated(now.studentFirstName);
  return {
    title: say`${firstName}: lesson of ${date}`,
    headline: headlineOf(findings, [...changed, ...worthALook], date),
    ...{ firstName, date, club: isolated(now.club) },
    asked: asked === null ? null : askedBefore(asked),
    findings,
    changes: [...changed, ...worthALook].map(sentChange),
    others: report.source.then === null ? null : othersWords(same, unsure),
    keyThoughts: page.keyThoughts.filter((thought) => thought.trim() !== ''),
    drills: page.drills,
    filmNext: page.filmNext,
    cautions: [...LESSON_CAUTIONS, ...STILL_CAUTIONS.slice(0, 1)],
  };
}

function sentFinding(report: LessonReport, { reading: key, words }: Finding): SentFinding {
  const reading = readingOf(report, key);
  const compared = comparisonOf(report, key);
  return {
    reading: key,
    label: fullLabelOf(key),
    number: reading === null ? null : shownReading(reading, report.figures).number,
    goal: reading === null ? null : goalWord(report, reading),
    change: compared === null ? null : changeWords(compared),
    words: words.trim(),
  };
}

function readingOf({ now }: LessonReport, key: ReadingKey): MeasuredReading | null {
  const found = now.find((reading) => sameReading(reading, key));
  return found?.state === 'measured' && isOfUse(found) ? found : null;
}

function comparisonOf({ comparisons }: LessonReport, key: ReadingKey): ShownComparison | null {
  return comparisons.find(({ comparison }) => sameReading(comparison, key)) ?? null;
}

function goalWord({ source: { goals, now } }: LessonReport, reading: MeasuredReading): string | null {
  const wanted = wantedOf(goals, reading, now.club);
  if (wanted === null || isWordsOnly(wanted)) return null;
  const judgement = judgeWanted(reading, wanted);
  return judgement === null ? null : JUDGEMENT_WORDS[judgement];
}

function changeWords({ then, now, difference, comparison: { verdict } }: ShownComparison): string {
  return say`then ${then}, now ${now}, difference ${difference}: ${VERDICT_WORDS[verdict]}`;
}

const sentChange = ({ comparison, then, now, difference, verdict }: ShownComparison): SentChange => ({
  ...{ label: fullLabelOf(comparison), then, now, difference, verdict },
});

function headlineOf(findings: readonly SentFinding[], changes: readonly ShownComparison[], date: string): string {
  const [first] = findings;
  const news = changes.find(({ comparison }) => first !== undefined && sameReading(comparison, first.reading));
  if (news !== undefined) return changeHeadline(news);
  if (first?.number !== null && first !== undefined)
    return `${first.label}: ${first.number}${first.goal === null ? '' : `, ${first.goal}`}`;
  const [change] = changes;
  return change === undefined ? say`Your lesson of ${date}` : changeHeadline(change);
}

function changeHeadline({ comparison, then, now, verdict }: ShownComparison): string {
  return `${fullLabelOf(comparison)}: ${then} \u2192 ${now}, ${verdict}`;
}

/** How much more there is, without a list of what nobody can tell: a student has no use for it. */
function othersWords(same: number, unsure: number): string | null {
  if (same + unsure === 0) return null;
  if (unsure === 0) return say`All else that was compared: no change.`;
  return same === 0
    ? say`All else that was compared: can't tell.`
    : say`All else that was compared: no change, or can't tell.`;
}

function askedBefore({ date, page, report }: AskedSource): AskedBefore {
  return {
    date: dayInWords(date),
    findings: page.findings.map(({ reading, words }) => {
      const compared = report === null ? null : comparisonOf(report, reading);
      return {
        label: fullLabelOf(reading),
        words: words.trim(),
        outcome: compared === null ? say`not compared: it is not read in both swings` : changeWords(compared),
      };
    }),
    keyThoughts: page.keyThoughts.filter((thought) => thought.trim() !== ''),
    drills: page.drills.map(({ title }) => title),
    film: [page.filmNext.what, page.filmNext.how].filter((part) => part.trim() !== ''),
  };
}

/** A reading with a number of use that the coach may make a finding of. */
export interface OtherReading {
  readonly reading: ReadingKey;
  readonly label: string;
  readonly number: string;
}

/** All of use that are no finding yet, in the order of the catalogue. */
export function otherReadings(report: LessonReport, page: LessonPage): readonly OtherReading[] {
  return report.now
    .filter((reading) => reading.state === 'measured')
    .filter((reading) => isOfUse(reading) && !page.findings.some((finding) => sameReading(finding.reading, reading)))
    .map((reading) => {
      const { id, aspect, view, checkpoint } = reading;
      const { number } = shownReading(reading, report.figures);
      return { reading: { id, aspect, view, checkpoint }, label: fullLabelOf(reading), number };
    });
}

/** A finding that the coach may take: a reading that misses its goal, with the goal's own words for that miss. */
export interface OfferedFinding extends Finding {
  readonly label: string;
  readonly number: string;
  readonly side: 'low' | 'high';
}

/**
 * All readings that surely miss their goal and are not among the findings yet, the farthest off first (in parts of its ±).
 * The words are those that the goals have for such a miss: empty where they have none, for Baybook has none of its own.
 */
export function offeredFindings(report: LessonReport, page: LessonPage): readonly OfferedFinding[] {
  const { goals, now } = report.source;
  const offers = report.now.flatMap((reading) => {
    if (reading.state !== 'measured' || !isOfUse(reading)) return [];
    if (page.findings.some((finding) => sameReading(finding.reading, reading))) return [];
    const wanted = wantedOf(goals, reading, now.club);
    const side = wanted === null ? null : missSide(reading, wanted);
    const limit = side === 'low' ? wanted?.from : wanted?.to;
    if (wanted === null || side === null || limit === null || limit === undefined) return [];
    const { id, aspect, view, checkpoint } = reading;
    const offer: OfferedFinding = {
      reading: { id, aspect, view, checkpoint },
      words: wanted.miss[side],
      label: fullLabelOf(reading),
      number: shownReading(reading, report.figures).number,
      side,
    };
    return [{ offer, off: Math.abs(reading.value - limit) / (reading.coverage * reading.u) }];
  });
  return offers.toSorted((one, other) => other.off - one.off).map(({ offer }) => offer);
}
