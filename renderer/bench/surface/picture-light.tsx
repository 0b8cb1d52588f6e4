import { inFigures } from '../../../core/model/language.ts';
import {
  Button as AriaButton,
  Dialog,
  DialogTrigger,
  Label,
  Popover,
  Slider,
  SliderOutput,
  SliderThumb,
  SliderTrack,
} from 'react-aria-components';
import { say } from '../../../core/model/say.ts';
import { PLAIN_LIGHT, isPlain, pictureLight } from '../state/picture-light.ts';
import type { PictureLight as Light } from '../state/picture-light.ts';
import { useStore } from '../../shell/state/store.ts';
import buttons from '../../controls/button.module.css';
import { Button } from '../../controls/button.tsx';
import styles from './picture-light.module.css';

/** Brightness, contrast and lifted shadows of the picture on the bench; nothing but the eye sees them. */
export function PictureLight() {
  const look = useStore(pictureLight, (state) => state);
  const set = (part: Partial<Light>) => pictureLight.update((before) => ({ ...before, ...part }));
  return (
    <DialogTrigger>
      <AriaButton
        className={[buttons.button, buttons.small, isPlain(look) ? buttons.quiet : buttons.main].join(' ')}
        aria-label={say`Brightness of the picture`}
      >{say`Brightness`}</AriaButton>
      <Popover className={styles.popover ?? ''} placement="right bottom">
        <Dialog className={styles.dialog ?? ''} aria-label={say`Brightness of the picture`}>
          <LightSlider
            label={say`Brightness`}
            value={look.brightness}
            range={[0.5, 2]}
            onChange={(brightness) => set({ brightness })}
          />
          <LightSlider
            label={say`Contrast`}
            value={look.contrast}
            range={[0.5, 2]}
            onChange={(contrast) => set({ contrast })}
          />
          <LightSlider
            label={say`Brighten shadows`}
            value={look.lift}
            range={[0, 1]}
            onChange={(lift) => set({ lift })}
          />
          <p>{say`Changes only what you see here. Clips, stills and numbers stay as they are.`}</p>
          <Button small onPress={() => pictureLight.update(() => PLAIN_LIGHT)}>{say`As filmed`}</Button>
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}

function LightSlider(props: {
  readonly label: string;
  readonly value: number;
  readonly range: readonly [number, number];
  readonly onChange: (value: number) => void;
}) {
  const { label, value, range, onChange } = props;
  const share = (100 * (value - range[0])) / (range[1] - range[0]);
  return (
    <Slider
      className={styles.slider ?? ''}
      minValue={range[0]}
      maxValue={range[1]}
      step={0.05}
      value={value}
      onChange={onChange}
    >
      <Label>{label}</Label>
      <SliderOutput>{inFigures(value.toFixed(2))}</SliderOutput>
      <SliderTrack className={styles.track ?? ''}>
        <div className={styles.line} />
        <div className={styles.fill} style={{ width: `${String(share)}%` }} />
        <SliderThumb className={styles.thumb ?? ''} />
      </SliderTrack>
    </Slider>
  );
}
