import type { ClipSource } from './clip-source.ts';

/**
 * What ffmpeg's report must be asked for with, so that each line carries its level. That H.264 was patched up is told as
 * a mere remark, and of the last pictures of a clip nothing else is told.
 */
export const DAMAGE_REPORT_LEVEL = 'level+info';

/** One line of ffmpeg's report at `level+...`: "[h264 @ 0x5581] [error] error while decoding MB 10 2". */
interface ReportLine {
  /** Names of the parts that speak, outermost first: a demuxer, a decoder by its codec; empty for the program itself. */
  readonly speakers: readonly string[];
  readonly level: string;
  readonly text: string;
}

const ERRORS = new Set(['error', 'fatal', 'panic']);
/** Decoders that have names of their own. */
const OTHER_DECODERS = /^(dec:|vist#|libdav1d|libvpx|libaom|libgav1)/;
/**
 * ffmpeg's word on a picture that its decoder has marked. It never comes alone where something is wrong: what was wrong is
 * told before. It does come alone of sound pictures that are coded as fields, whose marks H.264's decoder mixes up (as a
 * note in its h264dec.c says).
 */
const MARKED_PICTURE = 'corrupt decoded frame';
/**
 * Complaints of decoders after which the picture is right all the same: a picture to be forgotten that is not there
 * (edits into an open group), and notes beside the pictures that cannot be read.
 */
const HARMLESS = /^(mmco: unref short failure|SEI type|unable to decode APP fields)/;
const OF_DECODING = /error while decoding|error submitting .* to decoder/i;
const OF_READING = /corrupt|partial file|truncat|invalid|missing picture|error/i;

function parseReportLine(line: string): ReportLine | null {
  const parts = /^((?:\[[^\]]* @ (?:0x)?[0-9a-f]+\] )*)\[([a-z]+)\] (.*)$/i.exec(line.trimEnd());
  const [, contexts, level, text] = parts ?? [];
  if (contexts === undefined || level === undefined || text === undefined) return null;
  const speakers = [...contexts.matchAll(/\[([^\]]*) @ /g)].map((found) => found[1] ?? '');
  return { speakers, level, text };
}

/** Whether a line is a decoder's complaint about the picture that it is at. */
export function tellsOfDecoding(line: string, { codec }: Pick<ClipSource, 'codec'>): boolean {
  const parsed = parseReportLine(line);
  if (parsed === null || HARMLESS.test(parsed.text) || parsed.text.includes(MARKED_PICTURE)) return false;
  const { speakers, level, text } = parsed;
  const fromDecoder = speakers.some((name) => name === codec || OTHER_DECODERS.test(name));
  if (!fromDecoder) return speakers.length === 0 && level !== 'info' && OF_DECODING.test(text);
  if (ERRORS.has(level)) return true;
  return level === 'warning' ? text.includes('corrupt') : text.startsWith('concealing ');
}

/**
 * Whether a line of ffmpeg's report says that the clip is damaged: in the file, in a packet, or while decoding. What
 * filters, encoders and muxers complain about is no fault of the clip.
 */
export function tellsOfDamage(line: string, source: Pick<ClipSource, 'codec' | 'format'>): boolean {
  if (tellsOfDecoding(line, source)) return true;
  const parsed = parseReportLine(line);
  if (parsed === null) return false;
  const { speakers, level, text } = parsed;
  const fromReader = (name: string): boolean =>
    name === 'NULL' || name.startsWith('in#') || name.split(',').includes(source.format);
  if (speakers.length === 0) return level === 'warning' && text.includes('corrupt input packet');
  if (!speakers.some(fromReader)) return false;
  return ERRORS.has(level) ? OF_READING.test(text) : level === 'warning' && /corrupt/i.test(text);
}
