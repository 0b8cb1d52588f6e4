import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../../../core/measure/catalogue/catalogue.ts';
import {
  checkpointsOf,
  isReadAt,
  isWithdrawn,
  viewsOf,
  whyWithdrawn,
} from '../../../../core/measure/catalogue/where-read.ts';
import { evaluateChain } from '../../../../core/measure/goals/chain.ts';
import { withdrawnWords } from '../../../../core/measure/goals/withdrawn-goals.ts';
import { linkNeedWords } from '../../../../core/measure/words/chain-words.ts';
import { READING_IDS } from '../../../../core/model/reading.ts';
import type { ReadingKey } from '../../../../core/model/reading.ts';
import type { Goals } from '../../../../core/model/goals.ts';
import { CHECKPOINTS, VIEWS } from '../../../../core/model/words.ts';
import { parseGoalsFile, goalsFileOf } from '../../../../core/parse/goals.ts';
import { SHIPPED_GOALS } from '../../../../core/parse/shipped-goals.ts';
import { cellOf } from '../../../../core/report/cell.ts';
import { reportOf } from '../../../../core/report/lesson-report.ts';
import { chain, link, range } from '../../goals-file/sample-goals.ts';
import { ALL_SHAPES, inventedSwing } from '../invented-swing.ts';

const KNEE: ReadingKey = { id: 'lead-knee', aspect: 'value', view: 'face-on', checkpoint: 'top' };
const places = (id: ReadingKey['id']) =>
  VIEWS.flatMap((view) => CHECKPOINTS.map((checkpoint) => ({ id, view, checkpoint })));

describe('where a reading is made', () => {
  it('is in its views and at its checkpoints, but where it was withdrawn', () => {
    for (const id of READING_IDS)
      for (const place of places(id)) {
        const { views, checkpoints } = CATALOGUE[id];
        const isOnce = views.includes(place.view) && checkpoints.includes(place.checkpoint);
        expect(isReadAt(place)).toBe(isOnce && whyWithdrawn(place) === null);
        // Nothing is withdrawn that was never made.
        if (whyWithdrawn(place) !== null) expect(isOnce, JSON.stringify(place)).toBe(true);
      }
    expect(viewsOf('lead-knee')).toEqual(['down-the-line']);
    expect(checkpointsOf('shoulder-line', ['face-on'])).toEqual(['address', 'takeaway', 'impact']);
    expect(checkpointsOf('trail-knee')).not.toContain('finish');
    expect(READING_IDS.filter(isWithdrawn)).toEqual(['elbow-gap']);
  });

  it('says of each place where it was withdrawn why, and by how much it was off', () => {
    const whys = READING_IDS.flatMap(places).flatMap((place) => whyWithdrawn(place) ?? []);
    expect(whys.length).toBeGreaterThan(20);
    for (const why of whys) expect(why).toMatch(/^[A-Z].*\d.*\.$/);
  });
});

describe('what was asked for and is no longer made', () => {
  const swing = { ...inventedSwing(ALL_SHAPES), pins: [KNEE] };
  const asksForGap: Goals = {
    ...SHIPPED_GOALS,
    chains: [chain([link({ reading: 'elbow-gap', view: 'face-on', checkpoint: 'through', miss: 'plus' })])],
  };
  const report = reportOf({ now: swing, then: null, goals: asksForGap });

  it('stands among the missing of its cell, chosen as it was, and says why', () => {
    const { now } = cellOf(report, { view: 'face-on', checkpoint: 'top' });
    const [found, ...others] = now.missing.filter(({ reading }) => reading.id === 'lead-knee');
    expect(others).toEqual([]);
    expect(found).toMatchObject({ label: 'Lead knee', isPinned: true });
    expect(found?.words).toMatch(/^No longer read here\. Face on .* down the line\.$/);
    // Nobody asked for the others: they take no room.
    expect(now.missing.some(({ reading }) => reading.id === 'trail-knee')).toBe(false);
  });

  it('does not make a link look for a frame or a point', () => {
    const [first] = asksForGap.chains;
    if (first === undefined) throw new Error('a chain');
    const { links } = evaluateChain(first, asksForGap, { readings: report.now, comparisons: null, club: '7 iron' });
    const [evaluated] = links;
    expect(evaluated?.state).toBe('not measured');
    expect(evaluated === undefined ? null : linkNeedWords(evaluated)).toMatch(/^No longer read here\. The gap/);
  });

  it('stays in goals as it was written, with a note where it holds for nothing any more', () => {
    const wanted = [
      range({ reading: 'elbow-gap', unit: 'ratio', checkpoints: ['through'], from: 1, to: null }),
      range({ reading: 'lead-knee', views: ['face-on'], checkpoints: [] }),
      range({ reading: 'shoulder-line', views: ['face-on'], checkpoints: ['address', 'top'] }),
      range({ reading: 'shoulder-line', views: [], checkpoints: ['address', 'top'] }),
      range({ reading: 'lead-knee', views: [], checkpoints: [] }),
      range({ reading: null }),
    ];
    const goals = { ...asksForGap, wanted };
    expect(parseGoalsFile(JSON.parse(JSON.stringify(goalsFileOf(goals))))).toEqual(goals);
    expect(wanted.map((each) => withdrawnWords(each) !== null)).toEqual([true, true, true, false, false, false]);
  });
});
