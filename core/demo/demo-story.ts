import demo from '../../resources/demo-scenario.json' with { type: 'json' };
import type { Drill, LessonPage } from '../model/lesson-page.ts';
import { saidText } from '../model/say.ts';
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
  /** What each lesson sends in words. */
  readonly pages: Readonly<Record<DemoLesson, LessonPage>>;
}

/** In the language of the program, like what a coach of that language would have typed. */
export function demoStory(): DemoStory {
  const { student, lessons } = demo;
  const club = saidText(demo.club);
  return {
    student: { firstName: student.firstName, lastName: student.lastName, handedness: studentHandedness() },
    lessons: {
      then: { date: lessons.then.date, club, note: saidText(lessons.then.note) },
      now: { date: lessons.now.date, club, note: saidText(lessons.now.note) },
    },
    pages: { then: spoken(THEN), now: spoken(NOW) },
  };
}

function spoken({ findings, keyThoughts, drills, filmNext }: LessonPage): LessonPage {
  return {
    findings: findings.map((finding) => ({ ...finding, words: saidText(finding.words) })),
    keyThoughts: keyThoughts.map(saidText),
    drills: drills.map((drill) => ({
      ...drill,
      title: saidText(drill.title),
      steps: drill.steps.map(saidText),
      counts: saidText(drill.counts),
      caution: saidText(drill.caution),
    })),
    filmNext: { what: saidText(filmNext.what), how: saidText(filmNext.how) },
  };
}

const SHOULDERS = { id: 'shoulder-to-spine', aspect: 'value', view: 'down-the-line', checkpoint: 'top' } as const;
const TRAIL_KNEE = { id: 'trail-knee', aspect: 'value', view: 'down-the-line', checkpoint: 'top' } as const;
const HEAD = { id: 'head-box', aspect: 'value', view: 'face-on', checkpoint: 'top' } as const;

/** A golfer in address posture with the stick across both shoulders, a few strokes by hand. */
const STICK_DRILL: Drill = {
  id: '5d0a2c53-5f1e-4b8e-9d53-0d8b4a5f1c01',
  ...demo.advice.drill,
  caution: demo.advice.caution,
  sketch: [
    strokes(0.4, 0.7, 0.44, 0.52, 0.38, 0.36),
    strokes(0.52, 0.7, 0.5, 0.52, 0.38, 0.36),
    strokes(0.38, 0.36, 0.54, 0.18),
    strokes(0.4, 0.02, 0.7, 0.36),
    circle(0.62, 0.13, 0.055),
    circle(0.8, 0.69, 0.015),
  ],
};

function strokes(...places: readonly number[]): { x: number; y: number }[] {
  return places.flatMap((x, index) => (index % 2 === 0 ? [{ x, y: places[index + 1] ?? 0 }] : []));
}

function circle(x: number, y: number, radius: number): { x: number; y: number }[] {
  return Array.from({ length: 17 }, (_, step) => {
    const angle = (step * Math.PI) / 8;
    return { x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) };
  });
}

const THEN: LessonPage = {
  findings: [
    {
      reading: SHOULDERS,
      words:
        'Your shoulders turn flatter than your spine. The head drifts with them, and the club meets the ground first.',
    },
    { reading: TRAIL_KNEE, words: 'The trail knee stays bent, so the hips cannot turn.' },
  ],
  keyThoughts: demo.advice.keyThoughts,
  drills: [STICK_DRILL],
  filmNext: {
    what: 'Three swings with the 7 iron, from both sides.',
    how: 'Camera at hand height on the same spot, the whole swing at 240 frames a second.',
  },
};

const NOW: LessonPage = {
  findings: [
    { reading: SHOULDERS, words: 'Now they turn square to the spine, and the strike comes before the ground.' },
    { reading: TRAIL_KNEE, words: 'The knee eases straight as the hips turn. Keep that.' },
    { reading: HEAD, words: 'The head stays in its box until the club starts down.' },
  ],
  keyThoughts: demo.advice.keyThoughts.slice(0, 2),
  drills: [STICK_DRILL],
  filmNext: { what: 'Three swings with the 7 iron, then three with the driver.', how: 'As today, from both sides.' },
};
