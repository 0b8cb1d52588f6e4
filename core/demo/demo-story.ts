import demo from '../../resources/demo-scenario.json' with { type: 'json' };
import type { Handedness } from '../model/words.ts';
import { studentHandedness } from './demo-scenario.ts';
import type { DemoLesson } from './demo-scenario.ts';

/** What the demo tells besides its clips: the student, the two lessons, and what the coach sends. All of it invented. */
export interface DemoStory {
  readonly student: { readonly firstName: string; readonly lastName: string; readonly handedness: Handedness };
  /** Days are ISO 8601. */
  readonly lessons: Readonly<
    Record<DemoLesson, { readonly date: string; readonly club: string; readonly note: string }>
  >;
  /** Three short sentences. */
  readonly keyThoughts: readonly string[];
  readonly drill: { readonly name: string; readonly text: string };
  /** To stand wherever a key thought or the drill is shown. */
  readonly caution: string;
}

export function demoStory(): DemoStory {
  const { student, club, lessons, advice } = demo;
  return {
    student: { firstName: student.firstName, lastName: student.lastName, handedness: studentHandedness() },
    lessons: {
      then: { date: lessons.then.date, club, note: lessons.then.note },
      now: { date: lessons.now.date, club, note: lessons.now.note },
    },
    keyThoughts: advice.keyThoughts,
    drill: advice.drill,
    caution: advice.caution,
  };
}
