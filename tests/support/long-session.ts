import { CLOTHES } from '../../core/demo/clothes.ts';
import { demoScenario } from '../../core/demo/demo-scenario.ts';
import { framePainter } from '../../core/demo/frame-painter.ts';
import type { View } from '../../core/model/words.ts';
import { checkpointFrames } from '../../core/scene/checkpoint-frames.ts';
import type { Scenario } from '../../core/scene/scenario.ts';
import { encodeClip } from '../../core/video/process/encode-clip.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';

const RATE = 30;
const SOUND_RATE = 48_000;
/** The bay next door, seen through a gap in the net. */
const NEXT_DOOR = { left: 12, top: 60, lines: 96 } as const;
/** Places between two scene frames that are told apart: what was painted once is not painted again. */
const PLACES = 2;
/** Grain is drawn once and laid on each picture from another place on: a prime, so that it never lies the same. */
const GRAIN = 99_991;

export interface SessionOrder {
  readonly view: View;
  readonly strikes: number;
  readonly practices: number;
  /** Of the picture; the search looks at no more than 400. */
  readonly lines?: number;
  /** 0 to 1, from a seed. */
  readonly random: () => number;
}

/** What happens in the clip, seconds of the last frame with the ball at rest, or where it would be. */
export interface Session {
  readonly strikes: readonly number[];
  readonly practices: readonly number[];
  readonly nextDoor: readonly number[];
}

/** From when on the player moves and how quick; in scene frames a second. */
interface Swing {
  readonly begins: number;
  readonly pace: number;
  readonly kind: 'strike' | 'practice';
  /** Seconds the finish is held, and the club is lowered. */
  readonly held: number;
  readonly lowered: number;
  /** When the ball is teed up; Infinity: none lies there. */
  readonly teed: number;
}

/**
 * Films a camera that is left running: a player strikes balls and swings beside them or without one, lowers the club after
 * each, and another player strikes balls next door, small and heard. Grain, light that flickers, an echo of the room; one strike
 * is not heard, and there are noises that are no strikes.
 */
export async function filmSession(out: string, ffmpeg: Ffmpeg, order: SessionOrder): Promise<Session> {
  const { view, random, lines = 400 } = order;
  const between = (least: number, most: number): number => least + (most - least) * random();
  const scene = smallScene('then', view, lines);
  const kinds = shuffled(
    [...Array<'strike'>(order.strikes).fill('strike'), ...Array<'practice'>(order.practices).fill('practice')],
    random,
  );
  const first = scene.keyFrames[0] ?? 0;
  const impact = checkpointFrames(scene).impact;
  const swings: Swing[] = [];
  let time = between(1.5, 3);
  for (const kind of kinds) {
    const begins = time + between(1.2, 2.5);
    const swing = {
      ...{ begins, kind, pace: scene.framesPerSecond * between(0.85, 1.15) },
      ...{ held: between(0.4, 1.2), lowered: between(1.3, 2.2) },
      teed: kind === 'strike' || random() < 0.5 ? time + between(0.1, 0.8) : Infinity,
    };
    swings.push(swing);
    time = endOf(swing, scene) + between(0.6, 1.5);
  }
  const seconds = time + 1;
  const at = ({ begins, pace }: Swing): number => begins + (impact - first) / pace;
  const neighbour = neighbourSwings(seconds, random);
  const session: Session = {
    strikes: swings.filter(({ kind }) => kind === 'strike').map(at),
    practices: swings.filter(({ kind }) => kind === 'practice').map(at),
    nextDoor: neighbour.map(at),
  };
  const { width, height } = scene.picture;
  await encodeClip({
    ...{ ffmpeg, width, height, out, effort: 'quick' },
    rate: { num: RATE, den: 1 },
    frames: pictures(seconds, { scene, view, swings, neighbour }, random),
    sound: { sampleRate: SOUND_RATE, samples: soundOf(seconds, session, random) },
  });
  return session;
}

function neighbourSwings(seconds: number, random: () => number): readonly Swing[] {
  const swings: Swing[] = [];
  for (let begins = 2 + 4 * random(); begins < seconds - 8; begins += 9 + 9 * random())
    swings.push({ begins, pace: 110, kind: 'strike', held: 1, lowered: 1.5, teed: begins - 1 });
  return swings;
}

const endOf = ({ begins, pace, held, lowered }: Swing, { frameCount, keyFrames }: Scenario): number =>
  begins + (frameCount - 1 - (keyFrames[0] ?? 0)) / pace + held + lowered;

/** The demo's player at so many lines. */
function smallScene(lesson: 'then' | 'now', view: View, lines: number): Scenario {
  const scene = demoScenario(lesson, lesson === 'then' ? 'right' : 'left');
  const small = lines / scene.picture.height;
  const camera = scene.cameras[view];
  return {
    ...scene,
    picture: { width: 2 * Math.round((scene.picture.width * small) / 2), height: lines },
    cameras: { ...scene.cameras, [view]: { ...camera, focal: camera.focal * small } },
  };
}

interface Film {
  readonly scene: Scenario;
  readonly view: View;
  readonly swings: readonly Swing[];
  readonly neighbour: readonly Swing[];
}

async function* pictures(seconds: number, film: Film, random: () => number): AsyncGenerator<Uint8Array> {
  const { scene, view, swings, neighbour } = film;
  const player = posed(scene, view, 'then', swings);
  const beside = smallScene('now', view, NEXT_DOOR.lines);
  const other = posed(beside, view, 'now', neighbour);
  const grain = Float32Array.from({ length: GRAIN }, () => 8 * (random() - 0.5));
  for (let frame = 0; frame < seconds * RATE; frame += 1) {
    const picture = new Uint8Array(player(frame / RATE));
    layIn(picture, scene.picture.width, other(frame / RATE), beside.picture.width);
    addGrain(picture, 1 + 0.006 * Math.sin(1.7 * frame), grain, Math.floor(random() * GRAIN));
    yield picture;
    await new Promise((resolve) => {
      setImmediate(resolve);
    });
  }
}

/** The picture of a player at any second. */
function posed(
  scene: Scenario,
  view: View,
  lesson: 'then' | 'now',
  swings: readonly Swing[],
): (seconds: number) => Uint8Array {
  const withBall = framePainter(scene, view, CLOTHES[lesson]);
  const without = framePainter({ ...scene, ball: { ...scene.ball, radius: 1e-6 } }, view, CLOTHES[lesson]);
  const kept = new Map<string, Uint8Array>();
  const [first = 0] = scene.keyFrames;
  const lies = differing(withBall(first), without(first));
  const painted = (place: number, ball: 'flies' | 'lies' | 'none'): Uint8Array => {
    const frame = Math.round(place * PLACES) / PLACES;
    const name = `${String(frame)} ${ball}`;
    const found = kept.get(name) ?? (ball === 'flies' ? withBall : without)(frame);
    const made = ball !== 'lies' || kept.has(name) ? found : laidOver(found, withBall(first), lies);
    kept.set(name, made);
    return made;
  };
  return (seconds) => {
    const current = swings.findLast(({ teed, begins }) => seconds >= Math.min(teed, begins)) ?? null;
    if (current === null) return painted(first, 'none');
    const { begins, pace, held, kind, teed, lowered } = current;
    const end = scene.frameCount - 1;
    const done = begins + (end - first) / pace;
    const lying = seconds >= teed ? 'lies' : 'none';
    if (seconds < begins) return painted(first, lying);
    if (seconds < done) return painted(first + (seconds - begins) * pace, kind === 'strike' ? 'flies' : lying);
    const after = kind === 'strike' ? 'none' : lying;
    const back = Math.min(1, Math.max(0, (seconds - done - held) / lowered));
    return painted(end - (end - first) * back, after);
  };
}

/** Places of samples that two pictures show otherwise. */
function differing(one: Uint8Array, other: Uint8Array): readonly number[] {
  return Array.from(one.keys()).filter((at) => one[at] !== other[at]);
}

function laidOver(under: Uint8Array, over: Uint8Array, places: readonly number[]): Uint8Array {
  const picture = new Uint8Array(under);
  for (const at of places) picture[at] = over[at] ?? 0;
  return picture;
}

function layIn(picture: Uint8Array, width: number, small: Uint8Array, wide: number): void {
  for (let row = 0; row < small.length / (4 * wide); row += 1)
    picture.set(
      small.subarray(4 * row * wide, 4 * (row + 1) * wide),
      4 * ((NEXT_DOOR.top + row) * width + NEXT_DOOR.left),
    );
}

function addGrain(picture: Uint8Array, light: number, grain: Float32Array, from: number): void {
  for (let at = 0; at < picture.length; at += 4) {
    const off = grain[(from + at / 4) % GRAIN] ?? 0;
    for (let of = at; of < at + 3; of += 1) picture[of] = Math.min(255, Math.max(0, light * (picture[of] ?? 0) + off));
  }
}

function soundOf(seconds: number, session: Session, random: () => number): Float32Array {
  const samples = new Float32Array(Math.ceil(seconds * SOUND_RATE));
  for (let at = 0; at < samples.length; at += 1) samples[at] = 0.01 * (random() - 0.5);
  const click = (at: number, loud: number, fall: number): void => {
    const from = Math.round(at * SOUND_RATE);
    for (let of = 0; of < 0.2 * SOUND_RATE; of += 1) {
      const after = of / SOUND_RATE;
      const value = loud * Math.exp(-after / fall) * (0.6 * Math.sin(20_000 * after) + 0.8 * (random() - 0.5));
      samples[from + of] = Math.max(-1, Math.min(1, (samples[from + of] ?? 0) + value));
    }
  };
  const silent = Math.floor(random() * session.strikes.length);
  for (const [number, at] of session.strikes.entries()) {
    if (number === silent) continue;
    const late = 0.01 + 0.05 * random();
    click(at + late, 0.5 + 0.4 * random(), 0.008);
    click(at + late + 0.06, 0.12, 0.01);
  }
  for (const at of session.nextDoor) click(at + 0.03, 0.15 + 0.25 * random(), 0.01);
  for (const at of session.practices) whoosh(samples, at, random);
  // A door and a dropped club.
  for (let noise = 0; noise < 3; noise += 1) click(random() * (seconds - 1), 0.4, 0.04);
  return samples;
}

function whoosh(samples: Float32Array, at: number, random: () => number): void {
  for (let of = -0.15 * SOUND_RATE; of < 0.15 * SOUND_RATE; of += 1) {
    const place = Math.round(at * SOUND_RATE + of);
    const loud = 0.05 * Math.exp(-((of / (0.05 * SOUND_RATE)) ** 2));
    samples[place] = (samples[place] ?? 0) + loud * (random() - 0.5);
  }
}

function shuffled<Item>(items: readonly Item[], random: () => number): readonly Item[] {
  return items
    .map((item) => ({ item, place: random() }))
    .toSorted((one, other) => one.place - other.place)
    .map(({ item }) => item);
}
