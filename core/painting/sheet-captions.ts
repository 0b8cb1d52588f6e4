import type { Look } from './looks.ts';
import type { PanelCaption, PanelOrder, SheetOrder } from './sheet-order.ts';

/** What the head of a sheet says, and what is left to say above each panel (same order as the panels, row by row). */
export interface SheetCaptions {
  readonly name: string;
  readonly facts: string;
  readonly panels: readonly { readonly title: string; readonly facts: string }[];
}

const SHARED = ['view', 'club', 'date'] as const satisfies readonly (keyof PanelCaption)[];
const LOOK_WORDS: Readonly<Record<Look, string | null>> = { plain: null, then: 'Then', now: 'Now' };
const BETWEEN = ' · ';

/** Says once what holds for all panels, and with each panel what holds for it alone. Every fact appears. */
export function captionsOf(order: SheetOrder): SheetCaptions {
  const panels = order.rows.flatMap((row) => row.panels);
  const isShared = (fact: keyof PanelCaption) => new Set(panels.map((panel) => panel.caption[fact])).size === 1;
  const shared = SHARED.filter(isShared);
  const own = (['firstName', ...SHARED] as const).filter((fact) => !isShared(fact));
  const first = panels[0]?.caption;
  return {
    name: first !== undefined && isShared('firstName') ? first.firstName : '',
    facts: first === undefined ? '' : joined(shared.map((fact) => first[fact])),
    panels: panels.map((panel) => ({
      title: titleOf(panel),
      facts: joined([...own.map((fact) => panel.caption[fact]), panel.caption.frame, panel.caption.time]),
    })),
  };
}

function titleOf(panel: PanelOrder): string {
  return joined([LOOK_WORDS[panel.look], panel.caption.checkpoint]);
}

function joined(facts: readonly (string | null)[]): string {
  return facts.filter((fact) => fact !== null && fact !== '').join(BETWEEN);
}
