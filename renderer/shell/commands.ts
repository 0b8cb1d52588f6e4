import { lowered, say } from '../../core/model/say.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS } from '../../core/model/words.ts';
import { centre, oneToOne, reach, zoomByKey } from '../canvas/bench-view.ts';
import { app } from './state/app-state.ts';
import { chooseTool, goTo, goToNamed, sendToTool, stepBy } from '../bench/state/bench-actions.ts';
import { fitBoth } from '../compare/fit-both.ts';
import { fitPlayer } from '../bench/surface/fit-player.ts';
import { toggleBothViews } from '../bench/state/companion.ts';
import {
  flick,
  goToCompared,
  goToComparedName,
  layBy,
  laying,
  showThen,
  stepCompared,
} from '../compare/state/comparing.ts';
import { attempt } from './state/messages.ts';
import { stepEdits } from '../swing/state/swing-actions.ts';
import {
  changeSlowing,
  loopFromHere,
  loopToHere,
  toggleLoop,
  togglePlayback,
} from '../bench/playback/state/playback.ts';
import { loupe } from '../bench/state/loupe.ts';
import { liftShadows } from '../bench/state/picture-light.ts';
import { acceptProposal, nameByHand } from '../bench/state/proposals.ts';
import { nextPictureReadings } from '../bench/state/picture-readings.ts';
import { copyStillAtHand } from '../sheet/state/copy-actions.ts';
import { togglePause } from '../talk/state/recording.ts';
import { recordOrStop } from '../talk/state/talk.ts';
import { openHelp, openSettings } from './state/go-back.ts';
import { NUDGES } from '../tools/nudge.ts';
import { TOOLS } from '../tools/tool.ts';
import { toolEntry, toolLabel } from '../bench/tool-words.ts';

export const COMMAND_GROUPS = [
  'Frames',
  'Checkpoints',
  'Tools',
  'Marks',
  'Picture',
  'Comparison',
  'Talk-through',
  'Edit',
  'Program',
] as const;
export type CommandGroup = (typeof COMMAND_GROUPS)[number];

export const GROUP_LABELS: Readonly<Record<CommandGroup, string>> = {
  Frames: say`Frames`,
  Checkpoints: say`Checkpoints`,
  Tools: say`Tools`,
  Marks: say`Marks`,
  Picture: say`Picture`,
  Comparison: say`Comparison`,
  'Talk-through': say`Talk-through`,
  Edit: say`Edit`,
  Program: say`Program`,
};

/** How much of then one press brings or takes. */
const FADE = 0.1;

/** Something that can be done by a key on the bench. */
export interface Command {
  /** Stays the same for ever: keys that a coach chose are kept under it. */
  readonly id: string;
  readonly label: string;
  readonly group: CommandGroup;
  /** Usual keys, named as by `nameOfKey`; the first is the one that is shown. */
  readonly keys: readonly string[];
  /** Whether a held key does it again and again, each time once the picture is there. */
  readonly repeats?: true;
  readonly run: () => void;
}

/** Then and now are stepped through by the same keys as a frame on the bench. */
const isComparing = (): boolean => app.get().comparing !== null;
const step = (by: number): void => (isComparing() ? stepCompared(by) : stepBy(by));
const go = (index: number): void => (isComparing() ? goToCompared(index) : goTo(index));
const goNamed = (way: -1 | 1): void => (isComparing() ? goToComparedName(way) : goToNamed(way));

const FRAMES: readonly Command[] = [
  frames('step-back', say`One frame back`, ['ArrowLeft', ','], () => step(-1)),
  frames('step-on', say`One frame on`, ['ArrowRight', '.'], () => step(1)),
  frames('ten-back', say`Ten frames back`, ['Shift+ArrowLeft'], () => step(-10)),
  frames('ten-on', say`Ten frames on`, ['Shift+ArrowRight'], () => step(10)),
  { id: 'first', label: say`First frame`, group: 'Frames', keys: ['Home'], run: () => go(0) },
  { id: 'last', label: say`Last frame`, group: 'Frames', keys: ['End'], run: () => go(Number.MAX_SAFE_INTEGER) },
  { id: 'named-back', label: say`Checkpoint before`, group: 'Frames', keys: ['PageUp'], run: () => goNamed(-1) },
  { id: 'named-on', label: say`Checkpoint after`, group: 'Frames', keys: ['PageDown'], run: () => goNamed(1) },
];

const RUN: readonly Command[] = [
  { id: 'run', label: say`Play, or stop`, group: 'Frames', keys: ['r'], run: togglePlayback },
  { id: 'slower', label: say`Play slower`, group: 'Frames', keys: ['['], run: () => changeSlowing(1) },
  { id: 'faster', label: say`Play faster`, group: 'Frames', keys: [']'], run: () => changeSlowing(-1) },
  { id: 'loop', label: say`Loop, or play once`, group: 'Frames', keys: ['o'], run: toggleLoop },
  { id: 'loop-from', label: say`Loop from this frame`, group: 'Frames', keys: ['s'], run: loopFromHere },
  { id: 'loop-to', label: say`Loop to this frame`, group: 'Frames', keys: ['e'], run: loopToHere },
];

function frames(id: string, label: string, keys: readonly string[], run: () => void): Command {
  return { id, label, group: 'Frames', keys, repeats: true, run };
}

/** The digits name the frame on the bench, in the order of a swing. */
const NAMING: readonly Command[] = CHECKPOINTS.map((checkpoint, place) => ({
  id: `name-${checkpoint}`,
  label: say`This frame is ${lowered(CHECKPOINT_LABELS[checkpoint])}`,
  group: 'Checkpoints',
  keys: [String(place + 1)],
  run() {
    const { bench } = app.get();
    if (bench !== null) nameByHand(bench.clipId, checkpoint, bench.index);
  },
}));

const ACCEPT: Command = {
  id: 'accept',
  label: say`This frame is what was proposed`,
  group: 'Checkpoints',
  keys: ['Enter'],
  run: acceptProposal,
};

const TAKING: readonly Command[] = TOOLS.map((tool) => ({
  id: `tool-${tool}`,
  label: toolLabel(tool),
  group: 'Tools',
  keys: [toolEntry(tool).key],
  run: () => chooseTool(tool),
}));

const NUDGING: readonly Command[] = NUDGES.map(({ id, label, by, key }) => ({
  id,
  label,
  group: 'Marks',
  keys: [key],
  repeats: true,
  run: () => void sendToTool({ type: 'nudge', by }, reach(), centre()),
}));

const PICTURE: readonly Command[] = [
  { id: 'zoom-in', label: say`Zoom in`, group: 'Picture', keys: ['+', '='], repeats: true, run: () => zoomByKey(1) },
  { id: 'zoom-out', label: say`Zoom out`, group: 'Picture', keys: ['-', '_'], repeats: true, run: () => zoomByKey(-1) },
  {
    id: 'fit',
    label: say`Fit the player, or the whole picture`,
    group: 'Picture',
    keys: ['f'],
    run: () => (isComparing() ? fitBoth() : fitPlayer()),
  },
  { id: 'one-to-one', label: say`1:1, one to one`, group: 'Picture', keys: ['0'], run: oneToOne },
  { id: 'both-views', label: say`Both views, or one`, group: 'Picture', keys: ['v'], run: toggleBothViews },
];

const LOUPE: Command = {
  id: 'loupe',
  label: say`Enlarged view, on or off`,
  group: 'Picture',
  keys: ['z'],
  run: () => loupe.update(({ on }) => ({ on: !on })),
};

const COMPARISON: readonly Command[] = [
  {
    id: 'lay-over',
    label: say`Then over now, or beside it`,
    group: 'Comparison',
    keys: ['y'],
    run: () => layBy(laying.get().by === 'over' ? 'beside' : 'over'),
  },
  { id: 'flick', label: say`Flick between then and now`, group: 'Comparison', keys: ['q'], run: flick },
  {
    id: 'more-then',
    label: say`More of then`,
    group: 'Comparison',
    keys: ['ArrowUp'],
    repeats: true,
    run: () => showThen(laying.get().then + FADE),
  },
  {
    id: 'less-then',
    label: say`Less of then`,
    group: 'Comparison',
    keys: ['ArrowDown'],
    repeats: true,
    run: () => showThen(laying.get().then - FADE),
  },
];

const READINGS: Command = {
  id: 'picture-readings',
  label: say`Readings on the picture: none, chosen, all`,
  group: 'Picture',
  keys: ['n'],
  run: nextPictureReadings,
};

const LIFT: Command = {
  id: 'lift-shadows',
  label: say`Brighten shadows, on or off`,
  group: 'Picture',
  keys: ['i'],
  run: liftShadows,
};

const LIST: Command = {
  id: 'list-keys',
  label: say`Settings`,
  group: 'Program',
  keys: ['?'],
  run: openSettings,
};

const HELP: Command = { id: 'help', label: say`Help`, group: 'Program', keys: ['F1'], run: openHelp };

const EDIT: readonly Command[] = [
  {
    id: 'copy-still',
    label: say`Copy the still`,
    group: 'Edit',
    keys: ['Mod+c'],
    run: () => void attempt(copyStillAtHand),
  },
  {
    id: 'undo',
    label: say`Undo`,
    group: 'Edit',
    keys: ['Mod+z'],
    repeats: true,
    run: () => void attempt(() => stepEdits('undo')),
  },
  {
    id: 'redo',
    label: say`Redo`,
    group: 'Edit',
    keys: ['Mod+Shift+z', 'Mod+y'],
    repeats: true,
    run: () => void attempt(() => stepEdits('redo')),
  },
];

/** With Shift, beside the keys that play and draw: nobody begins to record by a slip of the hand. */
const TALKING: readonly Command[] = [
  {
    id: 'record',
    label: say`Record a talk-through, or stop`,
    group: 'Talk-through',
    keys: ['Shift+r'],
    run: () => void attempt(recordOrStop),
  },
  {
    id: 'pause',
    label: say`Pause the recording, or go on`,
    group: 'Talk-through',
    keys: ['Shift+p'],
    run: togglePause,
  },
];

/** Everything that has a key, in the order in which it is listed. What else a tool does with a mark is not here (tools/keys.ts). */
export const COMMANDS: readonly Command[] = [
  ...FRAMES,
  ...RUN,
  ...NAMING,
  ACCEPT,
  ...TAKING,
  ...NUDGING,
  ...PICTURE,
  LOUPE,
  LIFT,
  READINGS,
  ...COMPARISON,
  ...TALKING,
  ...EDIT,
  LIST,
  HELP,
];
