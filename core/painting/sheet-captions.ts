import { isolated } from '../model/isolated.ts';
import type { Style } from './styles.ts';
import type { PanelCaption, PanelOrder, SheetOrder } from './sheet-order.ts';

/** What the head of a sheet says, and what is left to say above each panel (same order as the panels, row by row). */
export interface SheetCaptions {
  readonly name: string;
  readonly facts: string;
  readonly panels: readonly { readonly title: string; readonly facts: string }[];
}

const SHARED = ['view', 'club', 'date'] as const satisfies readonly (keyof PanelCaption)[];
const STYLE_WORDS: Readonly<Record<Style, string | null>> = { plain: null, then: 'Then', now: 'Now' };
const BETWEEN = ' · ';

/** Says once what holds for all panels, and with each panel what holds for it alone. Every fact appears. */
export function captionsOf(order: SheetOrder): SheetCaptions {
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
        facts: joined([...own.map((fact) => captions[index]?.[fact] ?? ''), panel.caption.frame, panel.caption.time]),
      })),
  };
}

/** What was typed turns nothing that stands beside it. */
function withIsolated(caption: PanelCaption): PanelCaption {
  return { ...caption, firstName: isolated(caption.firstName), club: isolated(caption.club) };
}

function titleOf(panel: PanelOrder): string {
  return joined([STYLE_WORDS[panel.look], panel.caption.checkpoint]);
}

function joined(facts: readonly (string | null)[]): string {
  return facts.filter((fact) => fact !== null && fact !== '').join(BETWEEN);
}
