import { say } from '../model/say.ts';
import { isolated } from '../model/isolated.ts';

/** plain: one swing. then / now: the earlier and the later of two compared swings. */
export type Style = 'plain' | 'then' | 'now';

/**
 * Finished texts. What is the same in all panels is shown once, at the head of the sheet. No frame numbers: a student has no
 * use for them.
 */
export interface PanelCaption {
  /** The only name that is ever shown. */
  readonly firstName: string;
  readonly date: string;
  readonly view: string;
  readonly club: string;
  readonly checkpoint: string;
  /** E.g. "3.937 s", or null where it is not known. */
  readonly time: string | null;
}

interface CaptionedPanel {
  readonly look: Style;
  readonly caption: PanelCaption;
}

/** What the head of a sheet says, and what is left to say above each panel (same order as the panels, row by row). */
export interface SheetCaptions {
  readonly name: string;
  readonly facts: string;
  readonly panels: readonly { readonly title: string; readonly facts: string }[];
}

const SHARED = ['view', 'club', 'date'] as const satisfies readonly (keyof PanelCaption)[];
const STYLE_WORDS: Readonly<Record<Style, string | null>> = { plain: null, then: say`Then`, now: say`Now` };
const BETWEEN = ' · ';

/** Says once what holds for all panels, and with each panel what holds for it alone. Every fact appears. */
export function captionsOf(order: {
  readonly rows: readonly { readonly panels: readonly CaptionedPanel[] }[];
}): SheetCaptions {
  const captions = order.rows.flatMap((row) => row.panels).map((panel) => withIsolated(panel.caption));
  const isShared = (fact: keyof PanelCaption) => new Set(captions.map((caption) => caption[fact])).size === 1;
  const shared = SHARED.filter(isShared);
  const own = (['firstName', ...SHARED] as const).filter((fact) => !isShared(fact));
  const [first] = captions;
  return {
    name: first !== undefined && isShared('firstName') ? first.firstName : '',
    facts: first === undefined ? '' : joined(shared.map((fact) => first[fact])),
    panels: order.rows
      .flatMap((row) => row.panels)
      .map((panel, index) => ({
        title: titleOf(panel),
        facts: joined([...own.map((fact) => captions[index]?.[fact] ?? ''), panel.caption.time]),
      })),
  };
}

/** What was typed turns nothing that stands beside it. */
function withIsolated(caption: PanelCaption): PanelCaption {
  return { ...caption, firstName: isolated(caption.firstName), club: isolated(caption.club) };
}

function titleOf(panel: CaptionedPanel): string {
  return joined([STYLE_WORDS[panel.look], panel.caption.checkpoint]);
}

function joined(facts: readonly (string | null)[]): string {
  return facts.filter((fact) => fact !== null && fact !== '').join(BETWEEN);
}

/** Stand at the foot of every still with numbers. */
export const STILL_CAUTIONS: readonly string[] = [
  say`Numbers come from one camera and hold for what it could see; ± is the 95 % interval.`,
  say`If anything hurts, stop and see a doctor or physiotherapist.`,
];
