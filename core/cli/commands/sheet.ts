import { resolve } from 'node:path';
import { saveStills } from '../../jobs/save-stills.ts';
import { swingOfFile } from '../../jobs/swing-source.ts';
import { AppError } from '../../model/errors.ts';
import { CHECKPOINTS, VIEWS } from '../../model/words.ts';
import { sharedViews, USUAL_CHECKPOINTS, usualCheckpoints, viewsToShow } from '../../report/checkpoints.ts';
import { isStillWidth, PHONE_SIZE, STILL_FORMATS, STILL_LAYOUTS, STILL_WIDTH } from '../../report/still-file.ts';
import type { StillFormat, StillLayout } from '../../report/still-file.ts';
import { readSwingFile } from '../../swing-file/read-swing-file.ts';
import { findFfmpeg } from '../../video/process/find-ffmpeg.ts';
import type { Command, ParsedArguments } from '../command.ts';
import { remindOfConsent } from '../consent.ts';
import { BOOK_OPTION, placingOf } from '../placing-option.ts';
import { BESIDES_OPTIONS, withBesides } from '../besides-option.ts';
import { GOALS_OPTION, goalsOf } from '../goals-option.ts';
import { UNITS_OPTION, showUnitsOf } from '../units-option.ts';

/** `baybook sheet NOW.json [THEN.json]`: the stills of a lesson. */
export const sheetCommand: Command = {
  name: 'sheet',
  summary: 'Write the stills of a swing, or of then and now, with the drawn shapes and the numbers.',
  operands: { shown: 'SWING.json [THEN.json]', least: 1, most: 2 },
  options: {
    out: {
      type: 'string',
      value: 'DIR',
      help: 'folder to write to; made when missing; earlier files are never replaced',
    },
    checkpoints: {
      type: 'string',
      value: 'LIST',
      help: `e.g. ${USUAL_CHECKPOINTS.join(',')} (these, where named, unless told)`,
    },
    views: { type: 'string', value: 'LIST', help: 'down-the-line,face-on (all there are, unless told)' },
    format: {
      type: 'string',
      value: 'LIST',
      help: 'phone, mail or full, and jpeg or png (exact); mail,jpeg unless told; a jpeg stays within 1 MB',
    },
    width: {
      type: 'string',
      value: 'PIXELS',
      help: `${STILL_WIDTH.narrowest} to ${STILL_WIDTH.widest}, ${STILL_WIDTH.usual} unless told; a phone's is ${PHONE_SIZE.width}`,
    },
    book: BOOK_OPTION,
    goals: GOALS_OPTION,
    ...BESIDES_OPTIONS,
    units: UNITS_OPTION,
    json: { type: 'boolean', help: 'print the written files as JSON' },
  },
  details: [
    'With one swing file: one still per view, its checkpoints side by side. With THEN.json: one still per view and',
    'checkpoint, then beside now, with differences and verdicts. For a phone always one per view and checkpoint. A name',
    'that is taken gets a number. Beside each still stands a text file that says the same, for whoever cannot see it.',
  ],
  async run(args, { out, say, signal }) {
    showUnitsOf(args);
    const [nowPath = '', thenPath] = args.operands;
    const folder = args.text('out');
    if (folder === undefined) throw new AppError('bad-arguments', 'Say where to write the stills: --out DIR.');
    const { layout, format } = kindOf(args);
    const width = widthOf(args);
    if (layout === 'phone' && args.has('width'))
      throw new AppError('bad-arguments', `A still for a phone is ${PHONE_SIZE.width} pixels wide. Leave --width out.`);
    const placing = placingOf(args);
    const goals = await goalsOf(args);
    const ffmpeg = await findFfmpeg();
    const source = async (path: string, option: keyof typeof BESIDES_OPTIONS) => {
      const read = await readSwingFile(path);
      const found = swingOfFile(read, ffmpeg);
      return { ...found, file: read.swing, swing: await withBesides(found.swing, args, option) };
    };
    const now = await source(nowPath, 'now-also');
    const then = thenPath === undefined ? null : await source(thenPath, 'then-also');
    remindOfConsent([now.file, then?.file ?? null], say);
    const swings = (then === null ? [now] : [then, now]).map(({ swing }) => swing);
    const asksViews = listOf(args, 'views', VIEWS);
    const shared = asksViews ?? sharedViews(swings);
    if (shared.length === 0)
      throw new AppError('bad-request', 'The two swings have no view in common. Compare clips from the same side.');
    const checkpoints = listOf(args, 'checkpoints', CHECKPOINTS) ?? usualCheckpoints(swings, shared);
    if (checkpoints.length === 0)
      throw new AppError(
        'bad-request',
        'No checkpoint is named that could be shown. Name address, top or impact first.',
      );
    // A view that was asked for and has nothing to show is refused; one that was not is left out.
    const views = asksViews ?? viewsToShow(swings, shared, checkpoints);
    const saved = await saveStills(
      {
        now,
        then,
        checkpoints,
        views,
        goals,
        placing,
        layout,
        format,
        width,
        folder: resolve(folder),
        existing: 'number',
      },
      ffmpeg,
      { signal, report: () => undefined },
    );
    for (const { path, note } of saved) if (note !== null) say(`${path}: ${note}`);
    if (args.has('json')) out(JSON.stringify({ files: saved }));
    else
      for (const { path, width: w, height, bytes } of saved)
        out(`${path}: ${w} x ${height}, ${Math.ceil(bytes / 1000)} kB`);
  },
};

/** The layout and the kind of file that a list names, each at most once. */
function kindOf(args: ParsedArguments): { readonly layout: StillLayout; readonly format: StillFormat } {
  const words = listOf(args, 'format', [...STILL_LAYOUTS, ...STILL_FORMATS]) ?? [];
  const layouts = STILL_LAYOUTS.filter((one) => words.includes(one));
  const formats = STILL_FORMATS.filter((one) => words.includes(one));
  if (layouts.length > 1 || formats.length > 1)
    throw new AppError('bad-arguments', '--format takes one of phone, mail, full and one of jpeg, png.');
  return { layout: layouts[0] ?? 'mail', format: formats[0] ?? 'jpeg' };
}

function widthOf(args: ParsedArguments): number {
  const text = args.text('width') ?? String(STILL_WIDTH.usual);
  const width = /^\d{1,5}$/.test(text) ? Number(text) : NaN;
  if (!isStillWidth(width)) {
    const { narrowest, widest } = STILL_WIDTH;
    throw new AppError('bad-arguments', `--width takes whole pixels from ${narrowest} to ${widest}, not "${text}".`);
  }
  return width;
}

/** A list option such as "address,top", each word a known one; null when the option is not given. */
function listOf<Word extends string>(
  args: ParsedArguments,
  option: string,
  known: readonly Word[],
): readonly Word[] | null {
  const text = args.text(option);
  if (text === undefined) return null;
  const words = text.split(',').map((word) => word.trim().toLowerCase().replaceAll(' ', '-'));
  return [...new Set(words)].map((word) => {
    const found = known.find((one) => one === word);
    if (found === undefined)
      throw new AppError('bad-arguments', `--${option} does not know "${word}". Known: ${known.join(', ')}.`);
    return found;
  });
}
