import { describe, expect, it, test } from 'vitest';
import { planStills } from '../../../core/jobs/plan-stills.ts';
import { labelOf, NOTE_WORDS, NOTE_WORDS_ON_STILLS } from '../../../core/measure/words/format.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import type { ReadingKey } from '../../../core/model/reading.ts';
import type { MarkedClip } from '../../../core/model/swing.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import { reportOf, type ReportSource } from '../../../core/report/lesson-report.ts';
import { stillPages, type StillsChoice } from '../../../core/report/stills.ts';
import { expectThrown } from '../../support/trouble.ts';
import { markedClip, markedSwing } from '../jobs/marked-swing.ts';
import { STEADY, STEADY_SET_UP } from '../../support/steady.ts';

const NAMED = { address: 2, top: 9, impact: 14 } as const;
const now = markedSwing('2026-06-12', [markedClip('down-the-line', NAMED), markedClip('face-on', NAMED)]);
const then = markedSwing('2026-05-12', [markedClip('down-the-line', { address: 1, top: 7 }, 20)]);

type Order = ReportSource & StillsChoice;

const pagesOf = (order: Order) => stillPages(reportOf(order), order);

function order(changed: Partial<Order>): Order {
  return {
    now,
    then: null,
    checkpoints: ['address', 'top'],
    views: ['down-the-line'],
    goals: SHIPPED_GOALS,
    placing: STEADY,
    ...changed,
  };
}

test('stills count with the placing error that they are given, and say nothing of an assumed one then', () => {
  const points = ['lead-shoulder', 'trail-shoulder', 'tailbone', 'neck-base'] as const;
  const placing = { known: Object.fromEntries(points.map((point) => [point, 0.5])), assumed: 3, setUp: STEADY_SET_UP };
  const pins: readonly ReadingKey[] = [
    { id: 'shoulder-to-spine', aspect: 'value', view: 'down-the-line', checkpoint: 'top' },
  ];
  const of = (changed: Partial<Order>) =>
    pagesOf(order({ now: { ...now, pins }, checkpoints: ['top'], ...changed }))[0];
  const value = (still: ReturnType<typeof of>) => still?.panels[0]?.readings[0]?.value;
  expect(of({})?.notes).toContain(NOTE_WORDS_ON_STILLS['placing-assumed']);
  expect(of({ placing })?.notes).not.toContain(NOTE_WORDS_ON_STILLS['placing-assumed']);
  expect(value(of({ placing }))).toBeDefined();
  expect(value(of({ placing }))).not.toBe(value(of({})));
});

describe('stills of one swing', () => {
  it('are one a view, the checkpoints side by side in the order asked for', () => {
    const stills = pagesOf(order({ views: ['face-on', 'down-the-line'], checkpoints: ['impact', 'address'] }));
    expect(stills.map(({ view, nameParts }) => ({ view, nameParts }))).toEqual([
      { view: 'face-on', nameParts: ['impact', 'address'] },
      { view: 'down-the-line', nameParts: ['impact', 'address'] },
    ]);
    expect(stills[1]?.panels.map(({ which, clip, frame }) => [which, clip.view, frame.index])).toEqual([
      ['now', 'down-the-line', 14],
      ['now', 'down-the-line', 2],
    ]);
  });

  it('say who, when, which club, view, checkpoint, frame and time, and draw in the plain look', () => {
    const panel = pagesOf(order({ checkpoints: ['top'] }))[0]?.panels[0];
    expect(panel?.look).toBe('plain');
    expect(panel?.caption).toEqual({
      firstName: 'Robin',
      date: '12 June 2026',
      view: 'Down the line',
      club: '7 iron',
      checkpoint: 'Top',
      // 9 x 512 / 61440 s.
      time: '0.075 s real time',
    });
  });

  it('tell one clock: the times above two panels lie as far apart as the reading that is made of them says', () => {
    // Plays at 6 frames a second, was filmed at 24: from top (frame 9) to impact (frame 14) 5/24 s passed.
    const slowed = now.clips.map((clip) => ({
      ...clip,
      ...{ timebase: { num: 1, den: 3072 }, nominalRate: { num: 6, den: 1 } },
      captureRate: { framesPerSecond: { num: 24, den: 1 }, confirmed: true },
    }));
    const timesOf = (clips: readonly MarkedClip[]) => {
      const still = pagesOf(order({ now: { ...now, clips }, checkpoints: ['top', 'impact'] }))[0];
      const panels = still?.panels ?? [];
      const downswing = panels[1]?.readings.find(
        ({ label }) => label === labelOf({ id: 'downswing', aspect: 'value' }),
      );
      return [...panels.map(({ caption }) => caption.time), downswing?.value];
    };
    // 9 and 14 frames of 1/24 s, 0.375 and 0.583; of 1/6 s on screen.
    expect(timesOf(slowed)).toEqual([
      '0.375 s real time',
      '0.583 s real time',
      expect.stringMatching(/^0\.2\d ± .* s$/),
    ]);
    const unknown = slowed.map((clip) => ({ ...clip, captureRate: null }));
    expect(timesOf(unknown)).toEqual([
      ...['1.500 s on screen', '2.333 s on screen'],
      expect.stringMatching(/^0\.8\d* ± .* s on screen$/),
    ]);
  });

  it('give each panel the readings of its own checkpoint and view, with ± and unit, and none that is missing', () => {
    const neck = labelOf({ id: 'neck-over-back', aspect: 'value' });
    const turn = labelOf({ id: 'shoulder-to-spine', aspect: 'value' });
    const [address, top] = pagesOf(order({}))[0]?.panels ?? [];
    expect(address?.readings.map(({ label }) => label)).toContain(neck);
    expect(top?.readings.map(({ label }) => label)).toContain(turn);
    expect(top?.readings.map(({ label }) => label)).not.toContain(neck);
    for (const { value } of [...(address?.readings ?? []), ...(top?.readings ?? [])])
      expect(value).toMatch(/\d.* ± \d/);
  });

  it('say value and change of a reading in one row, and leave out numbers from points that nearly touch', () => {
    const knee = labelOf({ id: 'trail-knee', aspect: 'value' });
    const top = pagesOf(order({}))[0]?.panels[1];
    expect(top?.readings.find(({ label }) => label === knee)?.value).toMatch(/° ± .*, .*° ± .* from address$/);

    const turn = labelOf({ id: 'shoulder-line', aspect: 'value' });
    expect(top?.readings.map(({ label }) => label)).toContain(turn);
    const clip = markedClip('down-the-line', NAMED);
    const touching = clip.marks.map((marks) => ({
      ...marks,
      points: { ...marks.points, 'trail-shoulder': { x: 618, y: 352, hidden: false } },
    }));
    const close = markedSwing('2026-06-12', [{ ...clip, marks: touching }]);
    const labels = pagesOf(order({ now: close }))[0]?.panels.flatMap(({ readings }) => readings);
    expect(labels?.map(({ label }) => label)).not.toContain(turn);
  });

  it('state once what must be known to read the numbers', () => {
    const notes = pagesOf(order({}))[0]?.notes ?? [];
    expect(notes).toContain("Vertical is the picture's edge.");
    expect(new Set(notes).size).toBe(notes.length);
    // What the coach could do about it is for the coach's screen.
    for (const note of Object.values(NOTE_WORDS)) expect(notes).not.toContain(note);
    for (const note of notes) expect(note).not.toMatch(/\bmark a\b|confirm|set the/i);
  });
});

test('the picture of a panel is its frame: its size, what is marked on it, and one crop for all of a still', () => {
  const panels = planStills(order({ checkpoints: ['address', 'top', 'impact'] }))[0]?.rows[0]?.panels ?? [];
  expect(panels.map(({ frame }) => frame.index)).toEqual([2, 9, 14]);
  expect(panels[1]?.marks.filter(({ kind }) => kind === 'point')).toHaveLength(10);
  expect(panels[0]?.crop).not.toBeNull();
  expect(new Set(panels.map(({ crop }) => JSON.stringify(crop))).size).toBe(1);
  const both = planStills(order({ then }))[1]?.rows[0];
  expect(both?.panels.map(({ frame, look }) => [frame.which, frame.index, look])).toEqual([
    ['then', 7, 'then'],
    ['now', 9, 'now'],
  ]);
  const said = pagesOf(order({ then }))[1];
  expect(both?.panels.map(({ readings, caption }) => ({ readings, caption }))).toEqual(
    said?.panels.map(({ readings, caption }) => ({ readings, caption })),
  );
  expect(both?.comparisons.map(({ label, then, now, difference }) => [label, then, now, difference])).toEqual(
    said?.comparisons.map(({ label, then, now, difference }) => [label, then, now, difference]),
  );
});

describe('stills of then and now', () => {
  it('are one a view and checkpoint: then left in its look, now right in its own', () => {
    const stills = pagesOf(order({ then }));
    expect(stills.map(({ nameParts }) => nameParts)).toEqual([
      ['then-now', 'address'],
      ['then-now', 'top'],
    ]);
    expect(stills[1]?.panels.map(({ look, frame, caption }) => [look, frame.index, caption.date])).toEqual([
      ['then', 7, '12 May 2026'],
      ['now', 9, '12 June 2026'],
    ]);
  });

  it('compare what both have, with difference and verdict, and do not repeat it beside the pictures', () => {
    const row = pagesOf(order({ then }))[1];
    expect(row?.comparisons.length).toBeGreaterThan(2);
    for (const { then: before, now: after, difference, verdict } of row?.comparisons ?? []) {
      for (const text of [before, after, difference]) expect(text).toContain('±');
      expect(['changed', 'no change', "can't tell", 'worth a look']).toContain(verdict);
    }
    const compared = new Set(row?.comparisons.map(({ label }) => label));
    for (const { readings } of row?.panels ?? [])
      for (const { label } of readings) expect(compared.has(label)).toBe(false);
  });
});

test('a checkpoint that is named in one view only stands there, and is left out of the other', () => {
  const both = order({ checkpoints: ['address', 'top'], views: ['down-the-line', 'face-on'] });
  const [line] = both.now.clips.filter(({ view }) => view === 'down-the-line');
  if (line === undefined) throw new Error('no clip');
  const { address } = line.checkpoints;
  const named = address === undefined ? {} : { address };
  const face = { ...line, view: 'face-on' as const, checkpoints: named };
  const stills = pagesOf({ ...both, now: { ...both.now, clips: [line, face] } });
  expect(stills.map(({ view, nameParts }) => [view, nameParts])).toEqual([
    ['down-the-line', ['address', 'top']],
    ['face-on', ['address']],
  ]);
});

describe('stills are refused', () => {
  it('for a view without a clip, naming which swing lacks it', () => {
    const lacks = order({ then, views: ['face-on'] });
    expectThrown(() => pagesOf(lacks), 'bad-request', /The earlier swing.*"Face on"/);
    const alone = order({ now: then, views: ['face-on'] });
    expectThrown(() => pagesOf(alone), 'bad-request', /This swing.*"Face on"/);
  });

  it('for a checkpoint that is not named, naming swing, checkpoint and view', () => {
    const lacks = order({ then, checkpoints: ['impact'] });
    expectThrown(() => pagesOf(lacks), 'bad-request', /The earlier swing.*"Impact".*"Down the line"/);
    expectThrown(() => pagesOf(order({ checkpoints: ['finish'] })), 'bad-request', /This swing.*"Finish"/);
  });
});

describe('stills with pinned readings', () => {
  const pin = (id: ReadingKey['id'], checkpoint: Checkpoint): ReadingKey => ({
    ...{ id, checkpoint, aspect: 'value' },
    view: 'down-the-line',
  });
  const listed = (changed: Partial<Order>) =>
    pagesOf(order(changed)).flatMap(({ panels, comparisons }) => [
      ...panels.map(({ readings }) => readings.map(({ label }) => label)),
      ...(comparisons.length === 0 ? [] : [comparisons.map(({ label }) => label)]),
    ]);

  it('list these alone where they are pinned, and all elsewhere', () => {
    const all = listed({});
    const [address, top] = listed({ now: { ...now, pins: [pin('back-incline', 'top')] } });
    expect(top).toEqual(['Back incline']);
    expect(address).toEqual(all[0]);
    expect(all[1]?.length).toBeGreaterThan(3);
  });

  it('list of then and now the pinned difference alone', () => {
    const pins = [pin('back-incline', 'top')];
    expect(listed({ then, now: { ...now, pins }, checkpoints: ['top'] })).toEqual([[], [], ['Back incline']]);
  });

  it('list a pinned reading that only one of the two has, and no difference beside it', () => {
    const unplaced = then.clips.map((clip) => ({
      ...clip,
      marks: clip.marks.map((marks) => {
        const points = Object.entries(marks.points).filter(([point]) => point !== 'tailbone');
        return { ...marks, points: Object.fromEntries(points) };
      }),
    }));
    const pins = [pin('back-incline', 'top')];
    const order = { then: { ...then, clips: unplaced }, now: { ...now, pins }, checkpoints: ['top'] as const };
    expect(listed(order)).toEqual([[], ['Back incline']]);
  });
});
