import { inFigures } from '../../core/model/language.ts';
import { memo } from 'react';
import { say } from '../../core/model/say.ts';
import type { BookClip } from '../../core/model/book.ts';
import { isolated } from '../../core/model/isolated.ts';
import { benchView, oneToOne, zoomByKey } from '../canvas/bench-view.ts';
import { app } from '../shell/state/app-state.ts';
import { chooseTool } from './state/bench-actions.ts';
import { nextPictureReadings, pictureReadings } from './state/picture-readings.ts';
import { useStore } from '../shell/state/store.ts';
import { TOOLS } from '../tools/tool.ts';
import styles from './tool-bar.module.css';
import { Button } from '../controls/button.tsx';
import { fitPlayer } from './surface/fit-player.ts';
import { PictureLight } from './surface/picture-light.tsx';
import { ToolIcon } from './tool-icon.tsx';
import { keyTitle } from '../shell/key-words.ts';
import { toolEntry, toolLabel } from './tool-words.ts';

/** A column beside the frame: what the pointer does on it, and how large it is shown. */
export const ToolBar = memo(function ToolBar({ clip }: { readonly clip: BookClip }) {
  const inHand = useStore(app, (state) => state.bench?.tool.tool);
  return (
    <div
      className={styles.tools}
      role="toolbar"
      aria-label={say`Marking ${isolated(clip.originalName)}`}
      aria-orientation="vertical"
    >
      {TOOLS.map((tool) => (
        <Button
          key={tool}
          small
          look={inHand === tool ? 'main' : 'quiet'}
          label={toolLabel(tool)}
          pressed={inHand === tool}
          onPress={() => chooseTool(tool)}
        >
          <span className={styles.tool} title={`${toolLabel(tool)}. ${keyTitle(`tool-${tool}`)}`}>
            <ToolIcon icon={toolEntry(tool).icon} />
            <span>{toolEntry(tool).short ?? toolLabel(tool)}</span>
          </span>
        </Button>
      ))}
      <span className={styles.gap} />
      <ReadingsButton />
      <ZoomButtons />
      <PictureLight />
    </div>
  );
});

const READINGS_WORDS = { none: say`no`, chosen: say`chosen`, all: say`all` } as const;

/** Says which readings are drawn on the picture; a press shows the next lot. */
function ReadingsButton() {
  const shown = useStore(pictureReadings, (state) => state.shown);
  const words = READINGS_WORDS[shown];
  return (
    <Button
      small
      look="quiet"
      label={say`${words} readings on the picture. ${keyTitle('picture-readings')}`}
      onPress={nextPictureReadings}
    >
      <span className={styles.tool}>
        <span>{words} </span>
        <span>{say`readings`}</span>
      </span>
    </Button>
  );
}

function ZoomButtons() {
  const zoom = useStore(benchView, (state) => state.view.zoom);
  return (
    <>
      <span className={styles.zoom} aria-label={say`Zoom ${inFigures(zoom.toFixed(2))}`}>
        {inFigures(zoom.toFixed(zoom < 10 ? 2 : 1))}×
      </span>
      <span className={styles.pair}>
        <Button small look="quiet" label={say`Zoom out`} onPress={() => zoomByKey(-1)}>
          −
        </Button>
        <Button small look="quiet" label={say`Zoom in`} onPress={() => zoomByKey(1)}>
          +
        </Button>
      </span>
      <span className={styles.pair}>
        <Button small look="quiet" label={say`Fit the player, or the whole picture`} onPress={fitPlayer}>
          <span title={say`Fit the player, or the whole picture. ${keyTitle('fit')}`}>{say`Fit`}</span>
        </Button>
        <Button small look="quiet" label={say`1:1, one to one`} onPress={oneToOne}>
          1:1
        </Button>
      </span>
    </>
  );
}
