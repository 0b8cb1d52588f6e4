import { renderTalk } from '../../jobs/render-talk.ts';
import { swingOfFile } from '../../jobs/swing-source.ts';
import { AppError } from '../../model/errors.ts';
import { FILM_RATE, FILM_SIZES } from '../../talk/film-plan.ts';
import { readTalkFile } from '../../talk-file/read-talk-file.ts';
import { findFfmpeg } from '../../video/process/find-ffmpeg.ts';
import type { Command } from '../command.ts';
import { remindOfConsent } from '../consent.ts';
import { GOALS_OPTION, goalsOf } from '../goals-option.ts';
import { BOOK_OPTION, placingOf } from '../placing-option.ts';
import { tenthsOf } from '../tenths.ts';

/** `baybook talk LOG.json --out F.mp4`: the video of a talk-through. */
export const talkCommand: Command = {
  name: 'talk',
  summary: 'Make the video of a talk-through: what was shown and drawn, with the voice.',
  operands: { shown: 'LOG.json', least: 1, most: 1 },
  options: {
    out: { type: 'string', value: 'F.mp4', help: 'where to write; an earlier file is never replaced' },
    phone: {
      type: 'boolean',
      help: `upright, ${FILM_SIZES.phone.width} x ${FILM_SIZES.phone.height}; else ${FILM_SIZES.wide.width} x ${FILM_SIZES.wide.height}`,
    },
    burn: { type: 'boolean', help: 'write the captions into the picture too' },
    book: BOOK_OPTION,
    goals: GOALS_OPTION,
    json: { type: 'boolean', help: 'print what was written as JSON' },
  },
  details: [
    'The log names its sounds and clips by path; resources/talk.schema.json describes it. The video is H.264 and AAC at',
    `${FILM_RATE} pictures a second, with chapters at the findings and a track of captions. The closing card is added at its end.`,
  ],
  async run(args, { out, say, signal }) {
    const [path = ''] = args.operands;
    const target = args.text('out');
    if (target === undefined) throw new AppError('bad-arguments', 'Say where to write the video: --out F.mp4.');
    const placing = placingOf(args);
    const goals = await goalsOf(args);
    const { talk, folder } = await readTalkFile(path);
    remindOfConsent([talk.swings.now, talk.swings.then], say);
    const ffmpeg = await findFfmpeg();
    const source = (swing: typeof talk.swings.now) => swingOfFile({ swing, folder }, ffmpeg);
    const { pictures, painted } = await renderTalk(
      {
        ...{ talk, folder, goals, placing, out: target, existing: 'refuse' },
        now: source(talk.swings.now),
        then: talk.swings.then === null ? null : source(talk.swings.then),
        shape: args.has('phone') ? 'phone' : 'wide',
        burnCaptions: args.has('burn'),
      },
      ffmpeg,
      { signal, report: tenthsOf(say) },
    );
    const seconds = pictures / FILM_RATE;
    if (args.has('json')) out(JSON.stringify({ out: target, seconds, pictures, painted }));
    else out(`${target}: ${seconds.toFixed(1)} s, ${pictures} pictures, ${painted} of them painted`);
  },
};
