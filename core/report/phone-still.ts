import { JUDGEMENT_WORDS, VERDICT_WORDS } from '../measure/words/words.ts';
import { lowered, say, loweredFirst } from '../model/say.ts';
import { judgeWanted } from '../measure/goals/judge-wanted.ts';
import type { Judgement } from '../measure/goals/judge-wanted.ts';
import { isWordsOnly, wantedOf } from '../measure/goals/goals.ts';
import { dayInWords } from '../model/day-in-words.ts';
import { isolated } from '../model/isolated.ts';
import type { MeasuredReading, ReadingKey, Verdict } from '../model/reading.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS, type Checkpoint, type View } from '../model/words.ts';
import { cellOf, type CellReading, type ReportCell } from './cell.ts';
import { byClearness } from './changed.ts';
import { bareNumber, fromToWords, inFewWords, phoneHeadline, shortLabel } from './headline.ts';
import type { LessonReport } from './lesson-report.ts';
import type { ShownComparison } from './shown-reading.ts';

/** What stands on a still for a phone: little, large, in plain words. The pictures come with the page (stills.ts). */
export interface PhoneWords {
  readonly headline: string;
  /** Of what, in a few words: "Top, down the line, 7 iron". */
  readonly facts: string;
  /** At most three, those that are drawn on the pictures. */
  readonly lines: readonly PhoneLine[];
  /** What became of the rest, by name; and by number, for where names need too much room. Empty: there is no rest. */
  readonly rest: { readonly names: string; readonly counts: string };
  /** Whose it is, and of which day. */
  readonly foot: string;
  readonly caution: string;
}

export interface PhoneLine {
  readonly label: string;
  /** Without its \u00b1. "105\u00b0 \u2192 91\u00b0". */
  readonly number: string;
  /** The verdict, or how it stands to the goal; empty where there is neither. */
  readonly verdict: string;
  /** Whether it is what the student should see first. */
  readonly isStrong: boolean;
}

/** A line with what it is read from. */
export interface PhoneChoice {
  readonly words: PhoneWords;
  readonly drawn: Readonly<Record<'then' | 'now', readonly MeasuredReading[]>>;
}

/** More on one picture are in each other's way, and more lines are not read. */
const MOST_LINES = 3;

const PHONE_CAUTION = say`Measured from one camera. If anything hurts, stop and see a doctor or physiotherapist.`;

/** What is said of one view at one checkpoint. */
export function phoneChoice(report: LessonReport, view: View, checkpoint: Checkpoint): PhoneChoice {
  const cell = cellOf(report, { view, checkpoint });
  return report.source.then === null ? ofOne(report, cell, checkpoint, view) : ofBoth(report, cell, checkpoint, view);
}

/** Then and now: what changed, the clearest first, then what stayed and has a goal. */
function ofBoth(report: LessonReport, cell: ReportCell, checkpoint: Checkpoint, view: View): PhoneChoice {
  const all = onceEach(cell.comparisons);
  const of = (verdict: Verdict) => all.filter(({ comparison }) => comparison.verdict === verdict);
  const found = [...byClearness(of('changed')), ...byClearness(of('worth a look'))];
  const isTicked = ({ comparison }: ShownComparison) => isPinned(cell, comparison);
  const unsure = goalsFirst(report, of("can't tell"));
  const told = [
    ...found,
    ...of('no change').filter((each) => isTicked(each) || hasGoal(report, each)),
    // What nobody can tell is no news, unless the coach asked for it.
    ...unsure.filter(isTicked),
  ];
  // Where there is no news at all, one reading shows what was looked at.
  const lines = (told.length > 0 ? told : [...unsure, ...of('no change')].slice(0, 1)).slice(0, MOST_LINES);
  return {
    words: {
      headline: phoneHeadline(found[0] ?? null, all.length > 0, checkpoint),
      facts: factsOf(report, checkpoint, view),
      lines: lines.map(({ comparison, label, then, now }) => ({
        label: shortLabel(label),
        number: fromToWords(then, now),
        verdict: comparison.verdict === "can't tell" ? JUDGEMENT_WORDS[CLOSE] : VERDICT_WORDS[comparison.verdict],
        isStrong: found.some((each) => each.comparison === comparison),
      })),
      rest: restOf(all.filter((each) => !lines.includes(each))),
      foot: footOf(report),
      caution: PHONE_CAUTION,
    },
    drawn: { then: lines.map(({ comparison }) => comparison.then), now: lines.map(({ comparison }) => comparison.now) },
  };
}

/** One swing: what misses its goal first, then what meets it, then the rest as the list has it. */
function ofOne(report: LessonReport, cell: ReportCell, checkpoint: Checkpoint, view: View): PhoneChoice {
  const shown = cell.now.readings.filter(
    ({ isOnStill, reading, pin }) => isOnStill && (pin === 'pinned' || reading.aspect === 'value'),
  );
  const judged = shown.map((each) => ({ ...each, goal: goalWord(report, each) }));
  const ranked = [
    ...judged.filter(({ goal }) => goal.startsWith('too ') && goal !== CLOSE),
    ...judged.filter(({ goal }) => goal === 'on target'),
    ...judged.filter(({ goal }) => goal === CLOSE),
    ...judged.filter(({ goal }) => goal === ''),
  ];
  const lines = ranked.slice(0, MOST_LINES);
  const [first] = lines;
  const where = lowered(CHECKPOINT_LABELS[checkpoint]);
  const rest = ranked.slice(MOST_LINES).map(({ label }) => label);
  return {
    words: {
      headline:
        first === undefined
          ? `${CHECKPOINT_LABELS[checkpoint]}, ${lowered(VIEW_LABELS[view])}`
          : inFewWords({
              label: shortLabel(first.label),
              where,
              number: bareNumber(first.number),
              verdict: first.goal === '' ? '' : JUDGEMENT_WORDS[first.goal],
            }),
      facts: factsOf(report, checkpoint, view),
      lines: lines.map(({ label, number, goal }, place) => ({
        label: shortLabel(label),
        number: bareNumber(number),
        verdict: goal === '' ? '' : JUDGEMENT_WORDS[goal],
        isStrong: place === 0,
      })),
      rest: {
        names: rest.length === 0 ? '' : say`Also measured: ${inSentence(rest)}.`,
        counts: rest.length === 0 ? '' : say`Also measured: ${String(rest.length)} more.`,
      },
      foot: footOf(report),
      caution: PHONE_CAUTION,
    },
    drawn: { then: [], now: lines.map(({ reading }) => reading) },
  };
}

const CLOSE: Judgement = 'too close to call';

/** How a reading stands to its goal, in the words of goals; empty where it has none. */
function goalWord({ source: { goals, now } }: LessonReport, { reading }: CellReading): Judgement | '' {
  const wanted = wantedOf(goals, reading, now.club);
  if (wanted === null) return '';
  return isWordsOnly(wanted) ? '' : (judgeWanted(reading, wanted) ?? '');
}

/** A reading whose value and whose change since address are both compared is said once: by its value. */
function onceEach(all: readonly ShownComparison[]): readonly ShownComparison[] {
  const hasValue = (key: ReadingKey) =>
    all.some(({ comparison: { id, aspect } }) => id === key.id && aspect === 'value');
  return all.filter(({ comparison }) => comparison.aspect === 'value' || !hasValue(comparison));
}

function isPinned(cell: ReportCell, key: ReadingKey): boolean {
  return cell.now.readings.some(
    ({ reading, pin }) => pin === 'pinned' && reading.id === key.id && reading.aspect === key.aspect,
  );
}

function hasGoal({ source: { goals, now } }: LessonReport, { comparison }: ShownComparison): boolean {
  return wantedOf(goals, comparison, now.club) !== null;
}

function goalsFirst(report: LessonReport, all: readonly ShownComparison[]): readonly ShownComparison[] {
  const has = (each: ShownComparison): boolean => hasGoal(report, each);
  return [...all.filter(has), ...all.filter((each) => !has(each))];
}

function restOf(rest: readonly ShownComparison[]): PhoneWords['rest'] {
  const of = (head: string, verdicts: readonly Verdict[]) => {
    const labels = rest
      .filter(({ comparison }) => verdicts.includes(comparison.verdict))
      .map(({ label }) => shortLabel(label));
    return labels.length === 0
      ? []
      : [{ names: `${head}: ${inSentence(labels)}.`, counts: say`${head}: ${String(labels.length)} more.` }];
  };
  const parts = [
    ...of(say`Also changed`, ['changed', 'worth a look']),
    ...of(say`No change`, ['no change']),
    ...of(say`Can't tell`, ["can't tell"]),
  ];
  return { names: parts.map(({ names }) => names).join(' '), counts: parts.map(({ counts }) => counts).join(' ') };
}

const inSentence = (labels: readonly string[]): string => labels.map((label) => loweredFirst(label)).join(', ');

function factsOf({ source: { now } }: LessonReport, checkpoint: Checkpoint, view: View): string {
  return `${CHECKPOINT_LABELS[checkpoint]}, ${lowered(VIEW_LABELS[view])}, ${isolated(now.club)}`;
}

function footOf({ source: { now } }: LessonReport): string {
  return `${isolated(now.studentFirstName)}, ${dayInWords(now.date)}`;
}
