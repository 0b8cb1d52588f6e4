import { say } from '../../../core/model/say.ts';
import { said } from '../../controls/said.tsx';
import { Button } from '../../controls/button.tsx';
import { Dialog } from '../../controls/dialog.tsx';
import dialogStyles from '../../controls/dialog.module.css';
import styles from './ground-panel.module.css';

/** How two sticks are laid so that they tell where the camera stood, with a drawing and what to take care of. */
export function LayingSticks({ onClose }: { readonly onClose: () => void }) {
  return (
    <Dialog title={say`How to lay the sticks`} onClose={onClose}>
      <FromAbove />
      <ol className={styles.steps}>
        <li>{say`Take two straight sticks and measure each with a tape, end to end. The longer they are, the better: a metre and more.`}</li>
        <li>{say`Lay one on the ground along the target line, just beyond the ball as the player sees it.`}</li>
        <li>{say`Lay the other across it at right angles, middle on middle. Right angles: from one end, the two ends of the other stick are equally far.`}</li>
        <li>{say`Stand with the camera where you will film from, so that all four ends are in the picture, and do not move it afterwards. The higher it stands, the more the ground tells.`}</li>
        <li>{say`Start filming, let the sticks be seen for a moment, then take them away and let the player swing.`}</li>
        <li>{say`Here, type both lengths and click the four ends on a frame that shows them.`}</li>
      </ol>
      <p>{said`${<strong>{say`Nobody swings while the sticks lie where club or ball can strike them.`}</strong>} Keep children and everybody else well clear of the club, also of the player's back and of the line to the target.`}</p>
      <div className={dialogStyles.actions}>
        <Button look="main" onPress={onClose} autoFocus>{say`Close`}</Button>
      </div>
    </Dialog>
  );
}

/** The ground from above: target on the left, as a right-handed player sees it; both places of a camera. */
function FromAbove() {
  const soft = 'var(--ink-soft)';
  const text = { fill: 'var(--ink)', fontSize: 13 } as const;
  return (
    <svg
      className={styles.drawing}
      viewBox="0 0 460 250"
      role="img"
      aria-label={say`From above: a stick along the target line just beyond the ball, another across it at right angles; one camera behind the ball on the target line, one opposite the player.`}
    >
      <path d="M20 108h396" stroke={soft} strokeWidth="1.5" strokeDasharray="5 5" fill="none" />
      <path d="M28 102 18 108l10 6" stroke={soft} strokeWidth="1.5" fill="none" />
      <text x="18" y="96" {...text}>{say`target`}</text>
      <path d="M130 92h200M230 20v144" stroke="var(--accent)" strokeWidth="5" strokeLinecap="round" fill="none" />
      <path d="M230 80h-12v12" stroke={soft} strokeWidth="1.5" fill="none" />
      <text x="268" y="84" {...text}>{say`stick along the target line`}</text>
      <text x="240" y="34" {...text}>{say`stick across it`}</text>
      <circle cx="205" cy="108" r="6" fill="var(--sheet)" stroke="var(--ink)" strokeWidth="2" />
      <text x="192" y="132" {...text}>{say`ball`}</text>
      <ellipse cx="190" cy="206" rx="13" ry="22" fill="none" stroke="var(--ink)" strokeWidth="2" />
      <ellipse cx="250" cy="206" rx="13" ry="22" fill="none" stroke="var(--ink)" strokeWidth="2" />
      <text x="272" y="212" {...text}>{say`the player's feet`}</text>
      <Camera x={436} y={108} turn={180} />
      <text x="366" y="134" {...text}>{say`down the line`}</text>
      <Camera x={196} y={20} turn={90} />
      <text x="134" y="24" {...text}>{say`face on`}</text>
    </svg>
  );
}

/** A camera that looks to the right before it is turned, in degrees. */
function Camera({ x, y, turn }: { readonly x: number; readonly y: number; readonly turn: number }) {
  return (
    <g transform={`translate(${String(x)} ${String(y)}) rotate(${String(turn)})`} fill="var(--ink)">
      <rect x="-12" y="-8" width="18" height="16" rx="2" />
      <path d="M6 0 14-7v14z" />
    </g>
  );
}
