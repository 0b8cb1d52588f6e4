import { useState } from 'react';
import { say } from '../../../core/model/say.ts';
import { typedLength } from '../../../core/measure/words/format.ts';
import { TERMS } from '../../../core/measure/words/glossary.ts';
import { shownUnit } from '../../../core/measure/words/shown-units.ts';
import { readLength } from '../../../core/measure/words/typed-length.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { FrameMarks, LineShape, Plane } from '../../../core/model/mark.ts';
import { keepMarks } from '../../swing/state/edit-actions.ts';
import { withLineRole } from '../../tools/change-marks.ts';
import styles from '../bench-page.module.css';
import lay from '../../controls/lay.module.css';
import { Button } from '../../controls/button.tsx';
import { Choice, TextEntry } from '../../controls/fields.tsx';

interface LineRoleProps {
  readonly clip: BookClip;
  readonly marks: FrameMarks;
  readonly line: LineShape;
}

const UPRIGHT_HINTS = {
  plumb: say`True vertical. Draw it along an edge that is plumb, such as a door frame.`,
  level: say`True horizontal, square to the camera. Draw it along an edge that is level, such as a window sill.`,
} as const;

/** What a line stands for: nothing, the vertical, the horizontal, or a known length. */
export function LineRole({ clip, marks, line }: LineRoleProps) {
  const [asking, setAsking] = useState(line.role === 'yardstick');
  const role = asking ? 'yardstick' : line.role;
  const choose = (next: 'plumb' | 'level' | null) => {
    setAsking(false);
    if (line.role !== next) keepMarks(clip.id, withLineRole(marks, line.id, { role: next }));
  };
  const choice = (label: string, value: LineShape['role'], onPress: () => void, means?: string) => (
    <Button small pressed={role === value} onPress={onPress} {...(means === undefined ? {} : { hint: means })}>
      {label}
    </Button>
  );
  return (
    <>
      <div className={styles.row} role="group" aria-label={say`What the line stands for`}>
        {choice(say`Just a line`, null, () => choose(null))}
        {choice(say`Plumb`, 'plumb', () => choose('plumb'), TERMS.plumb.means)}
        {choice(say`Level`, 'level', () => choose('level'), TERMS.level.means)}
        {choice(say`Known length`, 'yardstick', () => setAsking(true), TERMS.knownLength.means)}
      </div>
      {role === 'plumb' || role === 'level' ? <p className={lay.soft}>{UPRIGHT_HINTS[role]}</p> : null}
      {asking ? <KnownLength clip={clip} marks={marks} line={line} /> : null}
    </>
  );
}

/** A length as typed, in mm; null when it is none or not above 0. */
function typedMm(text: string): number | null {
  const mm = readLength(text);
  return mm !== null && mm > 0 ? mm : null;
}

/** ± is a 95 % interval, as everywhere. */
const COVERAGE = 1.96;

const PLANES: readonly { readonly value: Plane; readonly label: string }[] = [
  { value: 'player', label: say`By the player` },
  { value: 'ball', label: say`At the ball` },
];

/** How long the known length is, how surely, and where it lies. */
function KnownLength({ clip, marks, line }: LineRoleProps) {
  const isKnown = line.role === 'yardstick';
  const [length, setLength] = useState(line.lengthMm === null ? '' : typedLength(line.lengthMm));
  const [give, setGive] = useState(line.lengthUMm === undefined ? '' : typedLength(line.lengthUMm * COVERAGE));
  const lengthMm = typedMm(length);
  const giveMm = typedMm(give);
  const isWrong = give.trim() !== '' && giveMm === null;
  const keep = (plane: Plane) => {
    if (lengthMm === null || isWrong) return;
    const lengthUMm = giveMm === null ? null : giveMm / COVERAGE;
    keepMarks(clip.id, withLineRole(marks, line.id, { role: 'yardstick', lengthMm, lengthUMm, plane }));
  };
  return (
    <form
      className={lay.column}
      onSubmit={(event) => {
        event.preventDefault();
        keep(line.plane ?? 'player');
      }}
    >
      <div className={styles.row}>
        <TextEntry
          label={say`Real length in ${shownUnit('cm')}`}
          value={length}
          onChange={setLength}
          autoFocus={!isKnown}
        />
        <TextEntry label={say`± ${shownUnit('cm')}, if not exact`} value={give} onChange={setGive} />
        <Button small type="submit" disabled={lengthMm === null || isWrong}>{say`Set length`}</Button>
      </div>
      {isKnown ? (
        <Choice label={say`Where it lies`} value={line.plane ?? 'player'} options={PLANES} onChange={keep} />
      ) : (
        <p
          className={lay.soft}
        >{say`A club with its length, a stick, a mat edge: as far from the camera as what is measured, and square to it.`}</p>
      )}
    </form>
  );
}
