import bench from '../../resources/languages/de/bench.json' with { type: 'json' };
import book from '../../resources/languages/de/book.json' with { type: 'json' };
import clips from '../../resources/languages/de/clips.json' with { type: 'json' };
import demo from '../../resources/languages/de/demo.json' with { type: 'json' };
import goals from '../../resources/languages/de/goals.json' with { type: 'json' };
import lesson from '../../resources/languages/de/lesson.json' with { type: 'json' };
import measure from '../../resources/languages/de/measure.json' with { type: 'json' };
import program from '../../resources/languages/de/program.json' with { type: 'json' };
import repeat from '../../resources/languages/de/repeat.json' with { type: 'json' };
import sent from '../../resources/languages/de/sent.json' with { type: 'json' };
import sheet from '../../resources/languages/de/sheet.json' with { type: 'json' };
import shippedGoals from '../../resources/languages/de/shipped-goals.json' with { type: 'json' };
import students from '../../resources/languages/de/students.json' with { type: 'json' };
import words from '../../resources/languages/de/words.json' with { type: 'json' };

/** What the sentences of the program are in German, by the sentence: one file for each part of the program that says them. */
export const GERMAN: Readonly<Record<string, string>> = {
  ...bench,
  ...book,
  ...clips,
  ...demo,
  ...goals,
  ...lesson,
  ...measure,
  ...program,
  ...repeat,
  ...sent,
  ...sheet,
  ...shippedGoals,
  ...students,
  ...words,
};
